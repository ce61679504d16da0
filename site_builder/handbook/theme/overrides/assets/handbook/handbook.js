/* The book works without this file. It opens the contents where there is room for them, and keeps folded tables
   tables. */
(function () {
  "use strict";
  document.documentElement.className = "js";
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
})();
