// The bench's one script: live reading, words that write into the box, the voice, the camera, lines that become steps.
// Everything works without it, except these. It reads nothing itself: what a text says, the bench is asked.
(() => {
  "use strict";
  const $ = (s, r = document) => r.querySelector(s), $$ = (s, r = document) => [...r.querySelectorAll(s)];
  $$("[data-scripted]").forEach(e => { e.hidden = false; });

  // what was read, told a moment after the last key
  $$("[data-reads]").forEach(box => {
    const out = document.getElementById(box.dataset.reads), form = box.closest("form");
    let wait, asked = 0;
    const ask = async () => {
      const mine = ++asked, unit = $("[data-unit]:checked", form);
      const to = new URLSearchParams({ text: box.value, as: box.dataset.as || "value", unit: unit ? unit.value : "" });
      try {
        const answer = await fetch("/read?" + to, { credentials: "same-origin" });
        const words = await answer.text();
        if (mine !== asked || !answer.ok) return;
        const page = new DOMParser().parseFromString(words, "text/html"), now = page.body.firstElementChild;
        out.className = now.className;
        out.replaceChildren(...now.childNodes);
        box.setAttribute("aria-invalid", now.classList.contains("bn-read--out") ? "true" : "false");
      } catch { /* without contact the bench reads it when it is sent */ }
    };
    const soon = () => { clearTimeout(wait); wait = setTimeout(ask, 250); };
    box.addEventListener("input", soon);
    form.addEventListener("change", e => { if (e.target.matches("[data-unit]")) soon(); });
    form.addEventListener("click", e => {
      const mend = e.target.closest("[data-mend]"), word = e.target.closest("[data-word]");
      if (mend && out.contains(mend)) { e.preventDefault(); box.value = mend.dataset.mend; ask(); box.focus(); }
      if (word) {
        const n = box.value.match(/-?\d+(\.\d+)?/g) || [];
        let k = 0;
        box.value = word.dataset.word.split("#").reduce((a, b) => a + (n[k++] || "") + b).replace(/\s+/g, " ");
        ask(); box.focus();
      }
    });
  });

  // what would be said of the form as it is filled, a moment after the last key; nothing is written
  $$("[data-ahead]").forEach(form => {
    const to = $("[data-ahead-to]", form);
    let wait, asked = 0;
    form.addEventListener("input", () => {
      clearTimeout(wait);
      wait = setTimeout(async () => {
        const mine = ++asked, sent = new URLSearchParams([...new FormData(form)].filter(one => typeof one[1] === "string"));
        if (form.dataset.aheadOnly) { sent.set("show", "1"); sent.set("only", "1"); }
        try {
          const answer = await fetch(form.dataset.ahead, { method: "POST", body: sent, credentials: "same-origin" });
          const words = await answer.text();
          if (mine !== asked || !answer.ok) return;
          to.replaceChildren(...new DOMParser().parseFromString(words, "text/html").body.firstElementChild.childNodes);
        } catch { /* without contact it is said when the form is sent */ }
      }, 700);
    });
  });

  $$("[data-nudge]").forEach(b => b.addEventListener("click", () => {
    const box = document.getElementById(b.getAttribute("aria-controls"));
    box.value = Math.max(0, (parseInt(box.value, 10) || 0) + +b.dataset.nudge);
    $("output", box.closest(".bn-field")).textContent = box.value + " " + box.dataset.of;
  }));

  // the voice kept as it is: it goes along with the form as a file
  $$("[data-record]").forEach(r => {
    const b = $("button", r), told = $("[role=status]", r), file = $("input[type=file]", r);
    let m, parts;
    b.addEventListener("click", async () => {
      if (m && m.state === "recording") { m.stop(); return; }
      try {
        const s = await navigator.mediaDevices.getUserMedia({ audio: true });
        const kind = ["audio/mp4", "audio/webm"].find(k => MediaRecorder.isTypeSupported(k)) || "";
        parts = []; m = new MediaRecorder(s, kind ? { mimeType: kind } : {});
        m.ondataavailable = e => parts.push(e.data);
        m.onstop = () => {
          s.getTracks().forEach(x => x.stop());
          const name = kind === "audio/mp4" ? "told.m4a" : "told.webm", put = new DataTransfer();
          put.items.add(new File(parts, name, { type: kind }));
          file.files = put.files;
          b.querySelector("span").textContent = "Record again";
          told.textContent = "Recorded. It is kept when you go on.";
          const a = document.createElement("audio");
          a.controls = true; a.src = URL.createObjectURL(new Blob(parts));
          $("audio", r)?.remove(); r.append(a);
        };
        m.start(); b.querySelector("span").textContent = "Stop recording"; told.textContent = "It is recording.";
      } catch { told.textContent = "This machine gives no sound. Choose a recording from the disk instead."; }
    });
  });
  // from a sentence of a telling: the one recording of the page plays from that moment
  $$("[data-play]").forEach(b => b.addEventListener("click", () => {
    const voice = $("#voice"), from = +b.dataset.play;
    const go = () => { voice.currentTime = from; voice.play().catch(() => {}); };
    if (voice.readyState > 0) go();
    else { voice.addEventListener("loadedmetadata", go, { once: true }); voice.load(); }
  }));
  $$("[data-camera] input").forEach(i => i.addEventListener("change", () => {
    const f = i.files[0], to = $("[data-thumb]", i.closest("form"));
    if (!f || !to) return;
    to.hidden = false; $("img", to).src = URL.createObjectURL(f); $("img", to).alt = "The picture just taken";
  }));

  // the square leads here with its four words behind the #, which no server is sent
  const code = $("#code");
  if (code && location.hash.length > 1 && !code.value) code.value = decodeURIComponent(location.hash.slice(1)).replace(/-/g, " ");
})();
