// On a telephone the list of pages lies over the page: it goes away once a page is chosen, and is
// never open when the bench comes up. The page server sees to both only in browsers that name
// themselves a telephone's, and remembers an open list through a reload.
"use strict";

const NARROW = window.matchMedia("(max-width: 768px)");
const LINK = '[data-testid="stSidebarNavLink"]';
const OPEN = '[data-testid="stSidebar"][data-collapsed="false"]';
const CLOSE = '[data-testid="stSidebarCollapseButton"] button';

// This runs before the page server's own script, which then finds nothing remembered.
for (const name of Object.keys(localStorage)) {
  if (name.startsWith("stSidebarCollapsed-")) localStorage.removeItem(name);
}

document.addEventListener("click", (event) => {
  const isPlain = !(event.ctrlKey || event.metaKey || event.shiftKey || event.altKey);
  if (!NARROW.matches || !isPlain || !event.target.closest(LINK)) return;
  // After the page server has heard of the click, so that the list is still there to be used.
  setTimeout(() => document.querySelector(`${OPEN} ${CLOSE}`)?.click());
});
