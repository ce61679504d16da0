/* Folds are `details`: they open without this file. It opens one when a link leads into it, those marked
   `bl-fold--wide` where there is room, and all of them on paper, shutting afterwards what was shut. */
(function () {
  "use strict";
  var wide = window.matchMedia("(min-width: 45em)");
  var folds = "details:is(.bl-fold, .bl-chapter, .bl-place-fold, .bl-reason, .bl-why-fold)";
  function fit() { document.querySelectorAll(".bl-fold--wide, details.bl-reason:not(.bl-reason--check), :not(.bl-reason--check) > .bl-why-fold").forEach(function (one) { one.open = wide.matches; }); }
  function reveal() {
    var name = "", target = null;
    try { name = decodeURIComponent(window.location.hash.slice(1)); } catch (error) { return; }
    target = name && document.getElementById(name);
    if (!target) { return; }
    var opened = false;
    for (var at = target; at; at = at.parentElement) {
      if (at.matches(folds) && !at.open) { at.open = opened = true; }
    }
    if (opened) { target.scrollIntoView(); }
  }
  var shut = [];
  window.addEventListener("beforeprint", function () {
    shut = Array.prototype.filter.call(document.querySelectorAll(folds), function (one) { return !one.open; });
    shut.forEach(function (one) { one.name = ""; one.open = true; });
  });
  window.addEventListener("afterprint", function () { shut.forEach(function (one) { one.open = false; }); });
  fit();
  wide.addEventListener("change", fit);
  window.addEventListener("hashchange", reveal);
  reveal();
})();
