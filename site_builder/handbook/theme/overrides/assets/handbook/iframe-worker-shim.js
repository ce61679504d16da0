/* A stand-in for Web Workers while the book is read from a disk.

   A browser refuses `new Worker("file:///…")`, so the finder would wait for ever. Here the worker's script
   runs in a hidden frame of the same page instead. The finder asks for no more than this:
     new Worker(address)            addEventListener("message", …) / onmessage     postMessage(data)
   and its script, inside, for
     addEventListener("message", …)      postMessage(data)      importScripts(…) that may be awaited
   It also looks for `IFrameWorker` in the page to learn that it sits in a frame. Both sides run on one
   thread: the page stands still while a question is answered. Over http real workers are left alone. */
(function () {
  "use strict";
  if (window.location.protocol !== "file:") { return; }

  function loadInto(room, address) {
    return new Promise(function (done, failed) {
      var script = room.document.createElement("script");
      script.src = address;
      script.onload = function () { done(); };
      script.onerror = function () { failed(new Error("Cannot load " + address)); };
      room.document.head.appendChild(script);
    });
  }

  /* A message never arrives within the call that sends it: the sender finishes first, as with a real worker. */
  function deliver(target, data) {
    window.setTimeout(function () {
      target.dispatchEvent(new MessageEvent("message", { data: data }));
    }, 0);
  }

  class FrameWorker extends EventTarget {
    constructor(address) {
      super();
      var worker = this;
      this.onmessage = null;
      this.onerror = null;
      this.addEventListener("message", function (event) {
        if (typeof worker.onmessage === "function") { worker.onmessage(event); }
      });
      this.frame = document.createElement("iframe");
      this.frame.hidden = true;
      this.frame.title = "Finder";
      this.frame.srcdoc = "<!doctype html><title>Finder</title>";
      this.ready = new Promise(function (done, failed) {
        worker.frame.addEventListener("load", function () {
          var room = worker.frame.contentWindow;
          room.postMessage = function (data) { deliver(worker, data); };
          room.importScripts = function () {
            return Array.from(arguments).reduce(function (before, next) {
              return before.then(function () { return loadInto(room, next); });
            }, Promise.resolve());
          };
          loadInto(room, new URL(address, document.baseURI).href).then(function () { done(room); }, failed);
        }, { once: true });
      });
      this.ready.catch(function (error) {
        if (typeof worker.onerror === "function") { worker.onerror(error); }
        console.error(error);
      });
      document.body.appendChild(this.frame);
    }

    postMessage(data) {
      this.ready.then(function (room) { deliver(room, data); }, function () { /* told above */ });
    }

    terminate() {
      this.frame.remove();
    }
  }

  window.IFrameWorker = window.Worker = FrameWorker;
})();
