// Changes: POST with JSON and the page's token. A refusal is shown as it stands.

import { byId } from './dom.js';
import { say } from './say.js';

const token = document.querySelector('meta[name="snick-token"]').content;
let hiding;

export async function get(path) {
  try {
    const answer = await fetch(`/api/v1/${path}`);
    const said = await answer.json();
    if (answer.ok) return said;
    toast(said.detail, true);
  } catch {
    toast(say('act.no_answer'), true);
  }
  return undefined;
}

export const post = (path, body) => send(path, 'application/json', JSON.stringify(body), body);

export async function send(path, type, sent, body) {
  try {
    const answer = await fetch(`/api/v1/${path}`, {
      method: 'POST',
      headers: { 'Content-Type': type, 'X-Snick-Token': token },
      body: sent,
    });
    const said = await answer.json();
    if (answer.status === 409 && (await asked(said.detail))) return post(path, { ...body, new: true });
    if (answer.status === 409) return undefined;
    if (answer.ok) return said;
    toast(said.detail, true);
  } catch {
    toast(say('act.not_sent'), true);
  }
  return undefined;
}

// A name that is nearly one that exists: asked in the page, with targets that a glove hits.
function asked(question) {
  const box = byId('ask-dialog');
  byId('ask-text').textContent = question;
  return new Promise((answer) => {
    const end = (yes) => {
      box.close();
      answer(yes);
    };
    byId('ask-yes').onclick = () => end(true);
    byId('ask-no').onclick = () => end(false);
    box.oncancel = () => answer(false);
    box.showModal();
  });
}

export function toast(text, bad = false) {
  const place = byId('toast');
  place.textContent = bad ? say('act.not_done', { why: text }) : text;
  place.classList.toggle('bad', bad);
  place.hidden = false;
  clearTimeout(hiding);
  hiding = setTimeout(() => (place.hidden = true), bad ? 9000 : 4000);
}

export function onSubmit(id, act) {
  byId(id).addEventListener('submit', (event) => {
    event.preventDefault();
    act();
  });
}

// Done at the second press within six seconds: a stray tap does nothing.
export function onSecondPress(button, first, act) {
  const usual = button.textContent;
  let timer;
  const disarm = () => {
    clearTimeout(timer);
    button.textContent = usual;
    delete button.dataset.armed;
  };
  button.addEventListener('blur', disarm);
  button.addEventListener('click', () => {
    if (button.dataset.armed) {
      disarm();
      act();
      return;
    }
    button.dataset.armed = 'yes';
    button.textContent = first;
    timer = setTimeout(disarm, 6000);
  });
}
