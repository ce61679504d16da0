/* The finder: words of the book, from a disk as from a server, without workers and without a network.

   The book's words lie in search/words.js, which is read when the finder is first opened. MiniSearch keeps them;
   they are handed over in portions, so that the page never stands still and the first result does not wait for the
   last word. Endings go by Porter's rules (stemmer.js), slips by MiniSearch, the shop's other words for a thing by
   `also` of its glossary. */
(function () {
  "use strict";
  var dialog = document.getElementById("finder");
  var opener = document.querySelector(".bl-find");
  if (!dialog || !opener || !dialog.showModal) { return; }
  var base = dialog.dataset.base + "/";
  var input = dialog.querySelector("input"), told = dialog.querySelector("[role=status]");
  var list = dialog.querySelector("ol");
  var MOST = 40, PORTION = 40, AGAIN = 400; // results shown; milliseconds of reading, and between two looks
  var SILENT = new Set(("a an and are at be by can do does for from has have how i if in is it its me my not of on or " +
    "our so that the their then there this to was we what when where which who why will with you your").split(" "));
  var docs = [], also = [], index = null, state = "shut", again = 0;

  opener.hidden = false;
  opener.addEventListener("click", open);
  dialog.querySelector("button").addEventListener("click", function () { dialog.close(); });
  dialog.addEventListener("click", function (event) {
    if (event.target === dialog || event.target.closest("ol a")) { dialog.close(); }
  });
  input.addEventListener("input", show);
  dialog.querySelector("form").addEventListener("submit", function (event) {
    event.preventDefault();
    var first = list.querySelector("a");
    if (first) { first.click(); }
  });

  function open() {
    dialog.showModal();
    input.focus();
    if (state === "shut") { state = "reading"; read(); }
  }

  function load(address) {
    return new Promise(function (done, failed) {
      var script = document.createElement("script");
      script.src = base + address;
      script.onload = done;
      script.onerror = failed;
      document.head.appendChild(script);
    });
  }

  function read() {
    told.textContent = "Opening the book";
    Promise.all(["assets/handbook/finder/minisearch.js", "assets/handbook/finder/stemmer.js", "search/words.js"]
      .map(load)).then(function () { lay(window.wordsOfTheBook); fill(0); }, function () {
      state = "shut";
      told.textContent = "The words of this book cannot be read. Go by the contents.";
    });
  }

  /* One document a page and a place on it, the weightiest kinds first, so that they are found first too. */
  function lay(book) {
    also = book.also.map(function (group) { return group.map(stems); });
    book.pages.forEach(function (page) {
      docs.push({ address: page[0], title: page[1], text: page[2], kind: "", chapter: page[3], page: "" });
      (page[4] || []).forEach(function (part) {
        docs.push({ address: page[0] + "#" + part[0], title: part[1], text: part[2] || "", kind: part[3] || "",
          chapter: page[3], page: page[1] });
      });
    });
    docs.forEach(function (doc) { doc.weight = weight(doc); });
    docs.sort(function (one, other) { return other.weight - one.weight; });
    docs.forEach(function (doc, at) { doc.id = at; });
    index = new MiniSearch({
      fields: ["title", "text"], tokenize: tokens, processTerm: stem,
      searchOptions: { boost: { title: 3 }, weights: { fuzzy: 0.2, prefix: 0.5 }, combineWith: "AND",
        boostDocument: function (id) { return docs[id].weight; } }
    });
  }

  var WEIGHTS = { Trouble: 1.5, Limit: 1.4, Danger: 1.4, Step: 1, Word: 1.1 };
  function weight(doc) {
    if (doc.chapter === "For writers") { return 0.02; }
    return doc.kind ? WEIGHTS[doc.kind] || 0.9 : doc.chapter === "The work" ? 1.6 : 1.2;
  }

  function fill(at) {
    var until = performance.now() + PORTION;
    while (at < docs.length && performance.now() < until) { index.add(docs[at]); at += 1; }
    if (at < docs.length) { window.setTimeout(fill, 0, at); } else { state = "open"; }
    if (at === docs.length || (input.value && performance.now() > again)) {
      show();
      again = performance.now() + AGAIN;
    }
  }

  function tokens(text) { return text.toLowerCase().match(/[\p{L}\p{N}]+(?:[.,]\p{N}+)*/gu) || []; }
  function stem(word) {
    var bare = word.normalize("NFD").replace(/\p{M}/gu, "");
    return bare.length > 3 && /^[a-z]+$/.test(bare) ? stemmer(bare) : bare;
  }
  function stems(text) { return tokens(text).map(stem); }

  /* The words asked for; one that the shop also calls otherwise may stand under any of its names. */
  function query(words) {
    var left = words.map(stem), asked = [];
    also.forEach(function (group) {
      group.some(function (name) {
        var at = name.length ? place(left, name) : -1;
        if (at < 0) { return false; }
        left.splice(at, name.length);
        asked.push({ combineWith: "OR", queries: group.map(function (other) {
          return { combineWith: "AND", queries: other };
        }) });
        return true;
      });
    });
    return { combineWith: "AND", queries: asked.concat(left) };
  }
  function place(words, name) {
    for (var at = 0; at + name.length <= words.length; at += 1) {
      if (name.every(function (word, nth) { return words[at + nth] === word; })) { return at; }
    }
    return -1;
  }

  function search(words) {
    var wanted = query(words), last = stem(words[words.length - 1]);
    var options = { processTerm: function (term) { return term; }, tokenize: function (term) { return [term]; },
      prefix: function (term) { return term === last && term.length > 1; } };
    function ask(more) { return called(words, index.search(wanted, Object.assign({}, options, more))); }
    var found = ask({});
    if (found.length) { return { found: found, near: false }; }
    found = ask({ fuzzy: function (term) { return term.length > 3 ? 1 : false; } });
    if (!found.length) { found = ask({ fuzzy: function (term) { return term.length > 4 ? 2 : false; } }); }
    if (!found.length && words.length > 1) {
      wanted.combineWith = "OR";
      found = ask({ fuzzy: function (term) { return term.length > 3 ? 1 : false; } });
    }
    return { found: found.filter(function (one) { return docs[one.id].weight > 0.1; }), near: true };
  }

  /* What is called just so, or begins so, stands before what only speaks of it. */
  function called(words, found) {
    var name = words.join(" ");
    function rank(one) {
      var title = tokens(docs[one.id].title).filter(function (word) { return !SILENT.has(word); }).join(" ");
      return docs[one.id].weight < 0.1 ? 2 : title === name || (words.length > 1 && title.indexOf(name) === 0) ? 0 : 1;
    }
    return found.map(function (one) { return [rank(one), one]; })
      .sort(function (one, other) { return one[0] - other[0]; }).map(function (pair) { return pair[1]; });
  }

  function show() {
    var all = tokens(input.value);
    var words = all.filter(function (word) { return !SILENT.has(word); });
    if (!words.length) { words = all; }
    list.replaceChildren();
    if (!words.length) { told.textContent = index ? "Type a word." : "Opening the book"; return; }
    if (!index) { return; }
    var result = search(words), found = result.found;
    if (!found.length) {
      told.textContent = state === "open" ? "Nothing here says “" + input.value.trim() + "”. Try one word of it, or go " +
        "by the contents." : "Opening the book";
      return;
    }
    var count = found.length + (found.length === 1 ? " place" : " places");
    told.textContent = result.near ? "Nothing says just “" + input.value.trim() + "”. Near it:" : count;
    found.slice(0, MOST).forEach(function (one) { list.appendChild(item(docs[one.id], one.terms)); });
  }

  function item(doc, terms) {
    var link = document.createElement("a"), where = document.createElement("small"), row = document.createElement("li");
    var wanted = new Set(terms);
    link.href = base + doc.address;
    marked(link, doc.title, wanted);
    where.textContent = [doc.kind, doc.page || doc.chapter].filter(Boolean).join(" · ");
    link.appendChild(where);
    row.appendChild(link);
    var words = snippet(doc.text, wanted);
    if (words) { marked(row.appendChild(document.createElement("p")), words, wanted); }
    return row;
  }

  /* A text with the words that were found marked. */
  function marked(into, text, wanted) {
    text.split(/([\p{L}\p{N}]+(?:[.,]\p{N}+)*)/u).forEach(function (piece, nth) {
      if (nth % 2 && wanted.has(stem(piece.toLowerCase()))) {
        into.appendChild(document.createElement("mark")).textContent = piece;
      } else if (piece) { into.appendChild(document.createTextNode(piece)); }
    });
  }

  /* The sentence that holds a word, or the beginning. */
  function snippet(text, wanted) {
    var sentences = text.match(/[^.!?]+[.!?]*\s*/g) || [];
    var hit = sentences.findIndex(function (one) { return stems(one).some(function (word) { return wanted.has(word); }); });
    var words = sentences.slice(Math.max(0, hit)).join("").trim();
    return words.length > 150 ? words.slice(0, words.lastIndexOf(" ", 150)) + " …" : words;
  }
})();
