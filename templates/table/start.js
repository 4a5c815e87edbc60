// @ts-check
import { all, byId } from "./page.js";
import { recall } from "./keep.js";
import { afterChoice, apply, follow, listenToChoices } from "./choose.js";
import { listenToTicks } from "./ticks.js";
import { listenToWalk } from "./walk.js";
import { listenAtTable, offerSteps } from "./step.js";
import { listenToLarge, offerLarge } from "./enlarge.js";
import { listenToFind } from "./find.js";

/** The start: what was kept is recalled, every part listens, and the page shows what was chosen. */
recall();
listenToChoices();
listenToTicks();
listenToWalk();
listenAtTable();
listenToLarge();
listenToFind();
afterChoice.push(offerSteps, offerLarge);
for (const close of all("dialog .close")) close.addEventListener("click", () => /** @type {HTMLDialogElement} */ (close.closest("dialog")).close());
byId("bar").hidden = false;
apply().then(follow);
