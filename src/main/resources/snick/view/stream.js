// The event stream: opened while the page is visible, opened again when it is lost.

const SILENCE_MS = 6000;
const AGAIN_MS = 1500;
const KINDS = ['cut', 'bench', 'state', 'trace', 'points', 'missed'];

export function watch(take, tell) {
  let source;
  let heard = Date.now();
  let timer;

  function open() {
    close();
    heard = Date.now();
    source = new EventSource('/api/v1/events');
    for (const kind of KINDS) {
      source.addEventListener(kind, (event) => {
        heard = Date.now();
        tell(true);
        take(kind, JSON.parse(event.data));
      });
    }
    source.addEventListener('error', lost);
  }

  function close() {
    clearTimeout(timer);
    source?.close();
    source = undefined;
  }

  // A refused stream is not tried again by the browser itself, so it is tried again here.
  function lost() {
    tell(false);
    if (source?.readyState === EventSource.CLOSED) timer = setTimeout(open, AGAIN_MS);
  }

  function check() {
    if (source && Date.now() - heard > SILENCE_MS) {
      tell(false);
      open();
    }
  }

  document.addEventListener('visibilitychange', () => (document.hidden ? close() : open()));
  setInterval(check, 1000);
  open();
}
