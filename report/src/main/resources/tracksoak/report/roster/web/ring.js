/* Sounds, if somebody asked for it on this page, once the tray it shows is over. */
(function () {
  "use strict";
  var ring = document.getElementById("ring"), button = ring.querySelector("button"), said = ring.querySelector("[role=status]");
  var Sound = window.AudioContext || window.webkitAudioContext, sound = null, going = now();
  if (!Sound || !going) return;
  ring.hidden = false;

  function now() {
    var state = document.querySelector("[data-going]");
    return state !== null && state.dataset.going === "yes";
  }

  /* three notes that rise, from the browser itself: nothing is loaded */
  function notes(times) {
    for (var i = 0; i < 3 * times; i++) {
      var tone = sound.createOscillator(), level = sound.createGain(), at = sound.currentTime + 0.05 + 0.25 * i + 0.8 * Math.floor(i / 3);
      tone.frequency.value = [523.25, 659.25, 783.99][i % 3];
      level.gain.setValueAtTime(0.0001, at);
      level.gain.exponentialRampToValueAtTime(0.3, at + 0.02);
      level.gain.exponentialRampToValueAtTime(0.0001, at + 0.22);
      tone.connect(level).connect(sound.destination);
      tone.start(at);
      tone.stop(at + 0.25);
    }
  }

  button.addEventListener("click", function () {
    var on = button.getAttribute("aria-pressed") !== "true";
    button.setAttribute("aria-pressed", String(on));
    ring.dataset.listens = on ? "yes" : "no";
    said.textContent = on ? "This is how it will sound. Leave this page open." : "";
    if (!on) { sound.close(); sound = null; return; }
    sound = new Sound();
    sound.resume();
    notes(1);
    if (ring.dataset.notice === "no" && window.Notification && Notification.permission === "default") Notification.requestPermission();
  });

  function over() {
    if (sound === null) return;
    notes(4);
    ring.dataset.listens = "no";
    said.textContent = "All is over.";
    if (ring.dataset.notice === "no" && window.Notification && Notification.permission === "granted")
      new Notification("Tracksoak", { body: document.querySelector("[data-going]").textContent.trim() });
  }

  new MutationObserver(function () {
    var before = going;
    going = now();
    if (before && !going) over();
  }).observe(document.getElementById("main"), { childList: true, subtree: true, attributeFilter: ["data-going"] });
})();
