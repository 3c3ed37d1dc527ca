// The engine in the page: its WebAssembly runs in a worker, so that sliders never wait for it.
//   await dullcast.engine.start();
//   const answer = await dullcast.engine.ask({ask: "run", scenario: text, file: "name.yaml", sets: [...], units: "field"});
// Of requests with one `slot` only the newest is answered; those that it overtakes resolve to null. Beside what the
// engine answers (tools/page_engine/page_answers.hpp), `took_ms` is how long it worked.
(function () {
  "use strict";
  const dullcast = (window.dullcast = window.dullcast || {});

  // Runs in the worker, and is sent there as text: it may use nothing from around it.
  function workInWorker() {
    let engine = null;
    function answer(request) {
      const bytes = engine.lengthBytesUTF8(request) + 1;
      const place = engine._malloc(bytes);
      engine.stringToUTF8(request, place, bytes);
      const told = engine.UTF8ToString(engine._dullcast_answer(place));
      engine._free(place);
      return told;
    }
    self.onmessage = function (message) {
      const { number, wasm, request } = message.data;
      if (wasm) {
        self.dullcastEngine({ wasmBinary: wasm, print: function () {}, printErr: function () {} }).then(
          function (made) {
            engine = made;
            self.postMessage({ number, answer: answer(request) });
          },
          function (failure) {
            self.postMessage({ number, failure: String(failure) });
          });
        return;
      }
      const began = performance.now();
      try {
        const told = answer(request);
        self.postMessage({ number, answer: told, took: performance.now() - began });
      } catch (failure) {
        self.postMessage({ number, failure: String(failure) });
      }
    };
  }

  // The page carries the engine as {program, code}: JavaScript, and WebAssembly compressed and in base 64.
  function unpacked(base64) {
    const binary = atob(base64);
    const bytes = new Uint8Array(binary.length);
    for (let i = 0; i < binary.length; i += 1) bytes[i] = binary.charCodeAt(i);
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("gzip"));
    return new Response(stream).arrayBuffer();
  }

  function carried(id) {
    return JSON.parse(document.getElementById(id).textContent);
  }

  let worker = null;
  let started = null;
  let count = 0;
  const waiting = []; // requests not yet sent, oldest first
  let inHand = null;

  function sendNext() {
    if (inHand || waiting.length === 0) return;
    inHand = waiting.shift();
    worker.postMessage(inHand.message, inHand.transfer || []);
  }

  function send(message, slot, transfer) {
    return new Promise(function (resolve, reject) {
      if (slot) {
        for (let i = waiting.length - 1; i >= 0; i -= 1) {
          if (waiting[i].slot === slot) waiting.splice(i, 1)[0].resolve(null);
        }
      }
      count += 1;
      waiting.push({ message: Object.assign({ number: count }, message), slot, transfer, resolve, reject });
      sendNext();
    });
  }

  function receive(message) {
    const asked = inHand;
    inHand = null;
    const { answer, failure, took } = message.data;
    if (failure !== undefined) {
      asked.reject(new Error(failure));
    } else {
      const value = JSON.parse(answer);
      if (took !== undefined) value.took_ms = took;
      // What was overtaken while it was being worked out is still an answer: the newest of its slot comes after it.
      asked.resolve(value);
    }
    sendNext();
  }

  dullcast.engine = {
    // Starts the engine, once; resolves when it has its library. Rejects where the browser cannot run it.
    start: function () {
      if (started) return started;
      const engine = carried("engine-data");
      const program = engine.program + "\n(" + workInWorker.toString() + ")();";
      const url = URL.createObjectURL(new Blob([program], { type: "text/javascript" }));
      worker = new Worker(url);
      URL.revokeObjectURL(url);
      worker.onmessage = receive;
      worker.onerror = function (event) {
        if (inHand) inHand.reject(new Error(event.message || "the engine cannot be started in this browser"));
        inHand = null;
      };
      const open = JSON.stringify({ ask: "open", library: carried("library-data") });
      started = unpacked(engine.code)
        .then(function (wasm) {
          return send({ wasm, request: open }, null, [wasm]);
        })
        .then(function (answer) {
          if (!answer.ok) throw new Error(answer.problems.join("\n"));
          return answer;
        });
      return started;
    },
    // Resolves to the engine's answer, or to null when a newer request of the same slot overtook it.
    ask: function (request) {
      const { slot, ...asked } = request;
      return dullcast.engine.start().then(function () {
        return send({ request: JSON.stringify(asked) }, slot);
      });
    },
  };
})();
