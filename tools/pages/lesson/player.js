// Plays the seconds of a stopped pump: the pen on the strip, the clock and the bit go together. Whoever wants no motion
// steps from one moment that matters to the next instead.
// needs lesson/findings.js
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});
  const byId = (id) => document.getElementById(id);
  const firstSeconds = 30;
  const playingTime = 10;  // s, whatever is shown

  // lesson: {scene(), state(), current(), say(), pen(), bit(), redraw()}: what is on the page now; pen and bit may be null.
  // state.window is how many seconds are shown (Infinity: all), state.moment where the pen stands (undefined: at the end of
  // the stop). Gives {seconds(), showNow(), stop(), prepare(), all(), forget()}.
  dullcast.lessonPlayer = function (lesson) {
    const stillness = window.matchMedia("(prefers-reduced-motion: reduce)");
    let frame = 0;

    /// How many seconds the strip shows: a while past the pump's return.
    const seconds = () => Math.min(lesson.state().window, lesson.state().settings.seconds + 10);

    function show(at) {
      const {found, view} = lesson.current(), say = lesson.say();
      const now = Math.min(at, seconds());
      if (lesson.pen()) lesson.pen().update(now);
      byId("moment").value = now;
      byId("moment").setAttribute("aria-valuetext", say.seconds(now));
      byId("clock").textContent = now.toFixed(1) + " s";
      const times = view.rows.time;
      let row = found.upset.first;
      while (row + 1 < times.length && times[row + 1] <= found.upset.from + now) ++row;
      if (lesson.bit()) lesson.bit().update(row);
      byId("bit-words").textContent = `The bit from below ${now.toFixed(1)} s after the stop: hottest flat ` +
                                      `${say.T(dullcast.lessonFindings.hottest(view)[row])}.`;
    }

    const stopped = () => Boolean(lesson.current() && lesson.current().found.upset);
    function showNow() {
      if (!stopped()) return;
      const {upset} = lesson.current().found, at = lesson.state().moment;
      show(at === undefined ? upset.until - upset.from : at);
    }

    function stop() {
      cancelAnimationFrame(frame);
      frame = 0;
      byId("play").textContent = stillness.matches ? "Next moment" : "Play";
    }

    function nextMoment() {
      const state = lesson.state(), {found} = lesson.current(), all = seconds();
      const at = state.moment === undefined || state.moment >= all ? -1 : state.moment;
      state.moment = [0, found.crossed.faster, found.crossed.ruin, found.ruined, all]
        .filter((t) => t !== null && t <= all).sort((a, b) => a - b).find((t) => t > at);
      showNow();
    }

    function play() {
      if (!stopped()) return;
      if (stillness.matches) {
        nextMoment();
        return;
      }
      if (frame) {
        stop();
        return;
      }
      byId("play").textContent = "Pause";
      const state = lesson.state(), all = seconds(), began = performance.now();
      const from = state.moment === undefined || state.moment >= all ? 0 : state.moment;
      const step = (now) => {
        state.moment = Math.min(all, from + (Math.max(0, now - began) / 1000) * (all / playingTime));
        showNow();
        if (state.moment < all) {
          frame = requestAnimationFrame(step);
          return;
        }
        stop();
        state.moved += 1;
      };
      frame = requestAnimationFrame(step);
    }

    function prepare() {
      const state = lesson.state();
      byId("player").hidden = !lesson.scene().upset || !state.open;
      byId("first-seconds").checked = state.window < Infinity;
      byId("moment").max = seconds();
      stop();
    }

    function choose(window_) {
      stop();
      const state = lesson.state();
      state.window = window_;
      state.moment = undefined;
      prepare();
      lesson.redraw();
    }

    byId("play").addEventListener("click", play);
    byId("moment").addEventListener("input", () => {
      stop();
      lesson.state().moment = parseFloat(byId("moment").value);
      showNow();
    });
    byId("first-seconds").addEventListener("change", () => choose(byId("first-seconds").checked ? firstSeconds : Infinity));

    return {seconds, showNow, stop, prepare, all: () => choose(Infinity),
            forget: () => { lesson.state().moment = undefined; prepare(); }};
  };
})();
