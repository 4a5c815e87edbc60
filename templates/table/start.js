// @ts-check
import { all, byId, on } from "./page.js";
import { recall } from "./keep.js";
import { onChoice, apply, follow, hearChoices } from "./choose.js";
import { hearTicks } from "./ticks.js";
import { hearWalk } from "./walk.js";
import { hearTable } from "./step.js";
import { hearLarge, offerLarge } from "./enlarge.js";
import { hearFind } from "./find.js";

/** The start: what was kept is recalled, every part listens, and the page shows what was chosen. */
recall();
hearChoices();
hearTicks();
hearWalk();
hearTable();
hearLarge();
hearFind();
onChoice.push(offerLarge);
for (const close of all("dialog .close")) on(close, "click", () => /** @type {HTMLDialogElement} */ (close.closest("dialog")).close());
byId("bar").hidden = false;
apply().then(follow);
