/* The book works without this file. It opens the contents where there is room for them, keeps folded tables
   tables, opens the finder on a narrow screen (which needs scripts anyhow), and takes away the theme's
   one-letter keyboard commands: a slip of the hand on a tablet's keyboard should not turn the page
   (WCAG 2.2, criterion 2.1.4). */
(function () {
  "use strict";
  var contents = document.querySelector(".bl-contents");
  var wide = window.matchMedia("(min-width: 76.25em)");
  function settle() { if (contents) { contents.open = wide.matches; } }
  settle();
  wide.addEventListener("change", settle);

  /* On a phone the stylesheet folds a table into blocks, and some browsers then take it for no table any more.
     Saying again what each part is costs nothing there; in the file itself it would be noise. */
  var narrow = window.matchMedia("(max-width: 44.99em)");
  var parts = { table: "table", thead: "rowgroup", tbody: "rowgroup", tr: "row", td: "cell" };
  function name() {
    document.querySelectorAll(".bl-ledger, .bl-ledger :is(thead, tbody, tr, th, td)").forEach(function (part) {
      var role = parts[part.localName] || (part.scope === "col" ? "columnheader" : "rowheader");
      if (narrow.matches) { part.setAttribute("role", role); } else { part.removeAttribute("role"); }
    });
  }
  if (narrow.matches) { name(); }
  narrow.addEventListener("change", name);

  var find = document.querySelector(".bl-find");
  var box = document.getElementById("__search");
  if (find && box) {
    find.addEventListener("click", function () { box.click(); });
  }

  window.addEventListener("keydown", function (event) {
    var field = event.target instanceof Element && event.target.closest("input, textarea, select, [contenteditable]");
    var command = event.ctrlKey || event.metaKey || event.altKey;
    if (event.key.length === 1 && !command && !field && !(box && box.checked)) { event.stopImmediatePropagation(); }
  }, true);
})();
