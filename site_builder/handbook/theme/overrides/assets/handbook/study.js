/* The page for study remembers which questions somebody could answer. It is kept in this browser and nowhere else,
   and where the browser refuses (as some do for a file from a disk, or in a private window) it lasts as long as the
   page is open. A question is known by a key that changes with its words and its answer, so what was learned of an
   older page does not count for a new one. Without this file every question still opens and closes. */
(function () {
  "use strict";
  var book = document.querySelector(".bl-study");
  if (!book) { return; }
  var place = "benchlore study " + book.dataset.keep;
  var questions = Array.prototype.slice.call(book.querySelectorAll(".bl-study__q"));
  var panel = book.querySelector(".bl-study__keep");
  var count = book.querySelector(".bl-study__count");
  var only = book.querySelector(".bl-study__only");
  var known = {};
  var boxes = {};

  function recall() {
    try {
      JSON.parse(window.localStorage.getItem(place) || "[]").forEach(function (key) { known[key] = true; });
    } catch (unreadable) { /* refused, or nothing of ours: what is kept from now on says which */ }
  }

  function keep() {
    var keys = questions.map(function (one) { return one.dataset.key; }).filter(function (key) { return known[key]; });
    try {
      window.localStorage.setItem(place, JSON.stringify(keys));
      return true;
    } catch (refused) { return false; }
  }

  function tell(kept) {
    book.querySelector(".bl-study__kept").hidden = !kept;
    book.querySelector(".bl-study__lost").hidden = kept;
  }

  function show() {
    var done = 0;
    questions.forEach(function (one) {
      var could = Boolean(known[one.dataset.key]);
      done += could ? 1 : 0;
      one.classList.toggle("bl-study__q--known", could);
      one.querySelector(".bl-study__known").hidden = !could;
      boxes[one.dataset.key].checked = could;
      // a question that is being read stays until the next change, or it would be gone under the finger
      one.hidden = only.checked && could && !one.open;
    });
    book.querySelectorAll(".bl-study__group").forEach(function (group) {
      if (only.checked) { group.open = true; }
      group.hidden = !group.querySelector(".bl-study__q:not([hidden])");
    });
    count.textContent = "You could answer " + done + " of " + questions.length + ".";
  }

  questions.forEach(function (one) {
    var mark = document.createElement("span");
    mark.className = "bl-study__known";
    mark.textContent = "could answer";
    one.querySelector("summary").append(" ", mark);
    var label = document.createElement("label");
    var box = document.createElement("input");
    box.type = "checkbox";
    label.className = "bl-study__could bl-noprint";
    label.append(box, " I could answer this");
    one.querySelector(".bl-study__answer").append(label);
    boxes[one.dataset.key] = box;
    box.addEventListener("change", function () {
      known[one.dataset.key] = box.checked;
      tell(keep());
      show();
    });
  });

  only.addEventListener("change", function () {
    if (only.checked) { questions.forEach(function (one) { one.open = false; }); }
    show();
  });
  book.querySelector(".bl-study__anew").addEventListener("click", function () {
    known = {};
    questions.forEach(function (one) { one.open = false; });
    tell(keep());
    show();
  });

  recall();
  tell(keep());
  show();
  panel.hidden = false;
})();
