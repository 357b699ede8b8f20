// Changes: POST with JSON and the page's token. A refusal is shown as it stands.

import { byId } from './dom.js';

const token = document.querySelector('meta[name="snick-token"]').content;
let hiding;

export async function post(path, body) {
  try {
    const answer = await fetch(`/api/v1/${path}`, {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', 'X-Snick-Token': token },
      body: JSON.stringify(body),
    });
    const said = await answer.json();
    if (answer.status === 409 && confirm(`${said.detail}\n\nOK: add it as new. Cancel: nothing is noted.`)) {
      return post(path, { ...body, new: true });
    }
    if (!answer.ok) {
      toast(said.detail, true);
      return undefined;
    }
    return said;
  } catch {
    toast('Not sent: the recorder does not answer. Nothing was noted.', true);
    return undefined;
  }
}

export function toast(text, bad = false) {
  const place = byId('toast');
  place.textContent = bad ? `Not done: ${text}` : text;
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
