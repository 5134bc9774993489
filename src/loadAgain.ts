/**
 * Runs in the head of the built page, before anything else of it. A page of which a part has not arrived stays empty and
 * says nothing: a broken line does that, and so does a service worker that ends while it answers, as Chromium's can when
 * the page before was closed a moment ago. Such a page is loaded again, and says so where that does not help.
 */

/** How often a page loads itself again. */
export const TRIES = 2;

/** How often it has; this stays with the page's entry in the history of its tab. */
function tried(): number {
  const { again } = (window.history.state ?? {}) as { again?: unknown };
  return typeof again === 'number' ? again : 0;
}

let whole = true;

function missed({ target }: Event): void {
  const part =
    target instanceof HTMLScriptElement ||
    (target instanceof HTMLLinkElement && target.rel.includes('stylesheet'));
  if (!part || !whole) return;
  whole = false;
  if (tried() < TRIES) {
    window.history.replaceState({ again: tried() + 1 }, '');
    window.location.reload();
  } else if (document.readyState === 'loading') document.addEventListener('DOMContentLoaded', tell);
  else tell();
}

function tell(): void {
  const words = document.createElement('p');
  words.setAttribute('role', 'alert');
  words.textContent =
    'Kerfweave did not load whole: a part of it did not arrive. What is kept in this browser is not touched. ';
  const button = document.createElement('button');
  button.textContent = 'Load the page again';
  button.addEventListener('click', () => window.location.reload());
  words.append(button);
  document.body.prepend(words);
}

// The errors of elements do not rise to the window; they pass it on their way down. Parts that are loaded later have words of
// their own (app/Later.tsx).
window.addEventListener('error', missed, true);
window.addEventListener('load', () => {
  window.removeEventListener('error', missed, true);
  if (whole && tried() > 0) window.history.replaceState(null, '');
});
