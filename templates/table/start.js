// @ts-check
import { all, byId, first, on } from "./page.js";
import { recall, state } from "./keep.js";
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
if (!("s" in state.choice) && first("[data-axis=s]")) first("details")?.setAttribute("open", ""); // who has not chosen a size is asked to
apply().then(follow);
