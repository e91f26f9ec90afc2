// Pages work without this. Where it runs, it asks for the page again when the service says that something changed, and puts the new
// content in place of the old: focus, scrolling and what was unfolded stay, and nothing happens while somebody fills in a form.
// A page can say: <main data-still> (never renew it), <main data-room="ID"> (only what happens in this room matters).
"use strict";

(() => {
  const content = () => document.getElementById("content");
  const status = document.getElementById("updated");
  const past = new URLSearchParams(location.search).has("as-of");
  if (!status || !content() || content().hasAttribute("data-still") || past || !window.EventSource) {
    return;
  }

  const GATHER = 1500; // ms: several things mostly change together
  const LEAST = 5000; // ms between two renewals
  const AGAIN = 60000; // ms until a stream that was refused is asked for again
  let stream = null;
  let over = false;
  let planned = null;
  let last = 0;
  let typed = false;
  let owed = false;

  const fields = "input:not([type=hidden]), textarea, select";
  const say = (words) => {
    if (status.textContent !== words) {
      status.textContent = words;
    }
  };
  const fillingIn = () => typed || (content().contains(document.activeElement) && document.activeElement.matches(fields));

  function plan() {
    owed = true;
    if (planned === null) {
      // not all open pages at the same moment
      const wait = Math.max(GATHER + Math.random() * 1000, last + LEAST - Date.now());
      planned = setTimeout(renew, wait);
    }
  }

  async function renew() {
    planned = null;
    if (document.hidden || over) {
      return;
    }
    if (fillingIn()) {
      say("Something changed; not shown while you fill in a form");
      return;
    }
    last = Date.now();
    let answer;
    try {
      answer = await fetch(location.href, {
        headers: { "Panelbook-Refresh": "1", Accept: "text/html" },
        credentials: "same-origin",
        redirect: "manual",
        cache: "no-store",
      });
    } catch {
      say("Not up to date: the service cannot be reached");
      return;
    }
    if (answer.type === "opaqueredirect" || answer.status === 401) {
      over = true;
      stop();
      say("Signed out: load the page again to sign in");
      return;
    }
    if (!answer.ok) {
      say("Not up to date: load the page again");
      return;
    }
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    const fresh = page.getElementById("content");
    // somebody may have begun to type while the answer was under way
    if (!fresh || fillingIn()) {
      return;
    }
    owed = false;
    if (fresh.innerHTML !== content().innerHTML) {
      exchange(document.adoptNode(fresh));
      document.title = page.title;
    }
    const now = new Date();
    say("updated " + String(now.getHours()).padStart(2, "0") + ":" + String(now.getMinutes()).padStart(2, "0"));
  }

  function exchange(fresh) {
    const old = content();
    const focused = old.contains(document.activeElement) ? place(old, document.activeElement) : null;
    const unfolded = [...old.querySelectorAll("details")].map((one) => [label(one), one.open]);
    const scrolled = [...old.querySelectorAll("*")].filter((one) => one.scrollLeft || one.scrollTop);
    const within = scrolled.map((one) => [place(old, one), one.scrollLeft, one.scrollTop]);
    const [x, y] = [window.scrollX, window.scrollY];
    old.replaceWith(fresh);
    for (const one of fresh.querySelectorAll("details")) {
      const before = unfolded.find(([name]) => name === label(one));
      if (before) {
        one.open = before[1];
      }
    }
    for (const [where, left, top] of within) {
      const one = at(fresh, where);
      if (one) {
        one.scrollLeft = left;
        one.scrollTop = top;
      }
    }
    if (focused) {
      (at(fresh, focused) || fresh).focus({ preventScroll: true });
    }
    // at once, whatever a style says: nothing is to move
    window.scrollTo({ left: x, top: y, behavior: "instant" });
  }

  const label = (details) => details.id || (details.querySelector("summary") || details).textContent.trim();

  /** Where an element stands: by its id, its link, or the steps from the content down to it. */
  function place(root, element) {
    if (element === root) {
      return { steps: [] };
    }
    const steps = [];
    for (let one = element; one !== root; one = one.parentElement) {
      steps.unshift([...one.parentElement.children].indexOf(one));
    }
    return { id: element.id, link: element.getAttribute("href"), steps };
  }

  function at(root, where) {
    if (where.id) {
      return root.querySelector("#" + CSS.escape(where.id));
    }
    const step = where.steps.reduce((one, n) => one && one.children[n], root);
    if (where.link && (!step || step.getAttribute("href") !== where.link)) {
      return root.querySelector('a[href="' + CSS.escape(where.link) + '"]');
    }
    return step || null;
  }

  function start() {
    if (stream !== null || over || document.hidden) {
      return;
    }
    const own = new EventSource(new URL("stream", new URL(board(), location.origin)));
    stream = own;
    const changed = (event) => {
      const room = content().dataset.room;
      if (!room || !event.data || event.data === room) {
        plan();
      }
    };
    for (const kind of ["alert", "run", "visit", "unknown"]) {
      own.addEventListener(kind, changed);
    }
    own.addEventListener("error", () => {
      // refused, not merely broken off: the browser does not try again by itself
      if (own.readyState === EventSource.CLOSED && stream === own) {
        stream = null;
        plan();
        setTimeout(start, AGAIN);
      }
    });
  }

  function stop() {
    if (stream !== null) {
      stream.close();
      stream = null;
    }
  }

  /** The board's address with a slash, under whatever path the service lies. */
  const board = () => location.pathname.replace(/(\/board)(\/.*)?$/, "$1/");

  document.addEventListener("input", (event) => {
    if (content().contains(event.target)) {
      typed = true;
    }
  });
  document.addEventListener("reset", () => {
    typed = false;
  });
  document.addEventListener("focusout", () => {
    if (owed) {
      plan();
    }
  });
  // a browser opens few connections to one service: pages that nobody sees need none
  document.addEventListener("visibilitychange", () => {
    if (document.hidden) {
      stop();
    } else {
      start();
      plan();
    }
  });
  window.addEventListener("pagehide", stop);
  window.addEventListener("pageshow", start);
  start();
})();
