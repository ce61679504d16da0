/* A mark that plays a moment is a link to the recording: it works without this file. Here it plays in its place, from
   that moment to its end, and one voice at a time. Touched again it is silent. */
(function () {
  "use strict";
  var marks = document.querySelectorAll("a.bl-hear");
  if (!marks.length || !window.Audio) { return; }
  var voice = new Audio(), playing = null, until = Infinity;
  function moment(mark) {
    var found = /[#&]t=([0-9.]*)(?:,([0-9.]+))?/.exec(mark.getAttribute("href")) || [];
    return { from: parseFloat(found[1] || "0"), to: found[2] ? parseFloat(found[2]) : Infinity };
  }
  function hush() {
    voice.pause();
    if (playing) { playing.removeAttribute("data-playing"); }
    playing = null;
  }
  voice.addEventListener("timeupdate", function () { if (voice.currentTime >= until) { hush(); } });
  voice.addEventListener("ended", hush);
  marks.forEach(function (mark) {
    mark.addEventListener("click", function (event) {
      if (event.ctrlKey || event.metaKey || event.shiftKey || event.button) { return; }
      event.preventDefault();
      var again = playing === mark, here = moment(mark);
      hush();
      if (again) { return; }
      voice.src = mark.href;
      until = here.to;
      playing = mark;
      mark.setAttribute("data-playing", "");
      var started = voice.play();
      if (started) {
        started.then(function () {
          // a browser that knows nothing of fragments begins at the beginning
          if (voice.currentTime + 0.5 < here.from) { voice.currentTime = here.from; }
        }, function () { if (playing === mark) { hush(); window.location.href = mark.href; } });
      }
    });
  });
})();
