/* Every panel of the setup and of the song's facts, fetched together when the hand comes near the first of them. */
import "./band-a-panel.ts";
import "./bar-panel.ts";
import "./chanter-panel.ts";
import "./credits-panel.ts";
import "./cross-fingering-panel.ts";
import "./drones-panel.ts";
import "./fingering-panel.ts";
import "./key-panel.ts";
import "./keys-in-reach.ts";
import "./low-a-panel.ts";
import "./meter-panel.ts";
import "./scale-panel.ts";
import "./tempo-panel.ts";
