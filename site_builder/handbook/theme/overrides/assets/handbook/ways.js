/* The way back: who leaves a step for a trouble, a tool or a word finds a link that leads to that step again.
   It lasts as long as the window; where nothing may be kept, the browser's own way back does the same. */
(function () {
  "use strict";
  var KEY = "the step one left", page = document.querySelector(".bl-page");
  function kept() { try { return JSON.parse(window.sessionStorage.getItem(KEY)); } catch (error) { return null; } }
  function keep(left) { try { window.sessionStorage.setItem(KEY, JSON.stringify(left)); } catch (error) { /* no way back then */ } }
  if (!page) { return; }
  var here = window.location.href.split("#")[0], title = document.querySelector("h1").textContent;

  page.addEventListener("click", function (event) {
    var link = event.target.closest("a[href]"), step = link && link.closest(".bl-steps > li[id]");
    if (!step) { return; }
    var nth = Array.prototype.indexOf.call(step.parentElement.children, step) + 1;
    keep({ href: here + "#" + step.id, page: here, words: "step " + nth + ", " + title });
    if (link.href.split("#")[0] === here) { window.setTimeout(show, 0); } // else this page is left, and the next one shows it
  });
  window.addEventListener("hashchange", show);

  function show() {
    var left = kept(), old = document.querySelector(".bl-return");
    if (old) { old.remove(); }
    if (!left) { return; }
    if (window.location.href === left.href || (left.page === here && !window.location.hash)) { keep(null); return; }
    var row = document.createElement("p"), link = document.createElement("a");
    row.className = "bl-return bl-noprint";
    link.href = left.href;
    link.textContent = "Back to " + left.words;
    row.appendChild(link);
    page.appendChild(row);
  }
  show();
})();
