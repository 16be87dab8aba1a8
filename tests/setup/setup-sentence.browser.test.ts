import axe from "axe-core";
import type { LitElement } from "lit";
import { afterEach, describe, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { setupFault } from "../../src/pipes/setup-fault.ts";
import { hertzOf } from "../../src/pipes/sounding.ts";
import { keyFromName } from "../../src/pitch/key-signature.ts";
import { hertz } from "../../src/units/hertz.ts";
import { SetupPage } from "../support/setup-page.ts";

afterEach(() => {
  document.body.replaceChildren();
  document.documentElement.removeAttribute("data-theme");
});

const LABELS = ["Chanter", "Low A", "Band", "Scale", "Cross-fingerings", "Fingerings", "Drones", "Keys in reach"];

describe("the setup sentence", () => {
  test("says chanter, pitch, band, scale, cross-fingerings, drones and how many keys", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    expect(page.sentence).toBe(
      "B chanter, low A at 493.9 Hz, band at A 440. Scale septimal. No cross-fingering speaks. Fingered as usual. Drones: two tenors and a bass. 4 keys in reach.",
    );
  });

  test("opens a panel with the focus in it, and Escape brings the focus back to the word", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    for (const label of LABELS) {
      const blank = page.blank(label);
      const word = blank.shadowRoot?.querySelector("button") as HTMLButtonElement;
      word.focus();
      await userEvent.keyboard("{Enter}");
      await page.settled();
      expect(word.getAttribute("aria-expanded"), label).toBe("true");
      expect(page.panel(label).activeElement, `${label} holds the focus`).not.toBeNull();
      await userEvent.keyboard("{Escape}");
      await expect.poll(() => word.getAttribute("aria-expanded"), { message: label }).toBe("false");
      expect(blank.shadowRoot?.activeElement, label).toBe(word);
    }
  });

  test.each(["light", "dark"])(
    "has nothing that axe objects to, shut and with each panel open (%s)",
    async (theme) => {
      document.documentElement.dataset.theme = theme;
      const page = await SetupPage.open(defaultSetup(hertz(480)), keyFromName("Bb major"));
      await page.openPanel("Scale");
      await page.press("Scale", "measured by you");
      for (const label of [null, ...LABELS]) {
        if (label !== null) await page.openPanel(label);
        const { violations } = await axe.run(document.body);
        expect(
          violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`),
          label ?? "shut",
        ).toEqual([]);
      }
    },
    30_000,
  );
});

describe("changing the chanter", () => {
  test("puts another in the stock, pitch and name together", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Chanter");
    await page.press("Chanter", "B♭, 466.2 Hz");
    expect(page.setups.at(-1)).toMatchObject({ lowAIs: "Bb4" });
    expect(page.sentence).toContain("B♭ chanter, low A at 466.2 Hz");
  });

  test("names low A without moving it", async () => {
    const page = await SetupPage.open(defaultSetup(hertz(480)));
    await page.openPanel("Chanter");
    await page.press("Chanter", "B4");
    expect(page.setups.at(-1)).toMatchObject({ lowA: 480, lowAIs: "B4" });
    expect(page.sentence).toContain("B chanter, low A at 480 Hz");
  });

  test("takes the whole set an octave down for smallpipes, and up again", async () => {
    const page = await SetupPage.open(defaultSetup(hertz(480)));
    await page.openPanel("Chanter");
    await page.press("Chanter", "Sounds an octave lower");
    expect(page.setups.at(-1)).toMatchObject({ lowA: 240, lowAIs: "Bb3" });
    expect(page.sentence).toContain("B♭ smallpipes");
    await page.press("Chanter", "Sounds an octave lower");
    expect(page.setups.at(-1)).toMatchObject({ lowA: 480, lowAIs: "Bb4" });
  });

  test("says what a chanter wants of reeds and drones, marked as common practice", async () => {
    const page = await SetupPage.open(defaultSetup("A"));
    expect(page.said("Chanter")).toMatch(/extenders.*Common practice\./);
    expect(page.said("Chanter")).toContain("leave it to a maker");
  });
});

describe("changing low A", () => {
  test("to 480 Hz keeps the name B, says that this lies between two, and offers B flat", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Low A");
    await page.type("Low A", "input[name=hertz]", "480");
    expect(page.setups.at(-1)).toMatchObject({ lowA: 480, lowAIs: "B4" });
    expect(page.said("Low A")).toContain("lies between B♭ and B");
    expect(page.said("Low A")).toContain("The other way: B♭4 +50.6 cents, or a band at A 453.06.");
    await page.press("Low A", "Call it B♭");
    expect(page.setups.at(-1)).toMatchObject({ lowA: 480, lowAIs: "Bb4" });
    expect(page.said("Low A")).toContain("The other way: B4 −49.4 cents, or a band at A 427.63.");
  });

  test("by a tuner set to 453.06 that reads B flat gives 480 Hz, and the tuner's figure follows the hertz", async () => {
    const page = await SetupPage.open(defaultSetup("Bb"));
    await page.openPanel("Low A");
    await page.type("Low A", "input[name=tuner]", "453.06");
    expect(page.setups.at(-1)?.lowA).toBeCloseTo(480, 2);
    expect(page.setups.at(-1)?.lowAIs).toBe("Bb4");
    const hertzField = page.panel("Low A").querySelector("input[name=hertz]") as HTMLInputElement;
    expect(Number(hertzField.value)).toBeCloseTo(480, 2);
    await page.type("Low A", "input[name=hertz]", "482");
    expect((page.panel("Low A").querySelector("input[name=tuner]") as HTMLInputElement).value).toBe("454.95");
  });

  test("to a pitch more than a whole tone from its name changes nothing, says so, and offers pitch and name together", async () => {
    const page = await SetupPage.open(defaultSetup("A"));
    await page.openPanel("Low A");
    await page.type("Low A", "input[name=hertz]", "496");
    expect(page.setups).toEqual([]);
    expect(page.said("Low A")).toContain("496 Hz is more than a whole tone from A");
    await page.press("Low A", "Set 496 Hz, called B");
    expect(page.setups).toHaveLength(1);
    expect(page.setups[0]).toMatchObject({ lowA: 496, lowAIs: "B4" });
    expect(page.said("Low A")).toContain("496 Hz is B4 for a band at A 441.9; against A 440 you are 7 cents sharp.");
    expect(page.said("Low A")).not.toContain("more than a whole tone");
  });
});

describe("changing the band", () => {
  test("to meet a 480 Hz chanter tunes it to A 453.06 and says who cannot follow", async () => {
    const page = await SetupPage.open(defaultSetup(hertz(480)));
    await page.openPanel("Band");
    await page.press("Band", "A 453.1, to meet the pipes");
    expect(page.bandAs.at(-1)).toBeCloseTo(453.06, 2);
    expect(page.sentence).toContain("band at A 453.1");
    expect(page.said("Band")).toContain("480 Hz is B♭4 for a band at A 453.1.");
    expect(page.said("Band")).toContain("Brass and reeds reach about 435 to 446.");
    await page.press("Band", "A 440, as usual");
    expect(page.bandAs.at(-1)).toBe(440);
  });

  test("takes a typed A from 380 to 480 Hz and nothing outside", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Band");
    await page.type("Band", "input[name=band]", "481");
    expect(page.bandAs).toEqual([]);
    await page.type("Band", "input[name=band]", "415");
    expect(page.bandAs).toEqual([415]);
  });
});

describe("changing the scale", () => {
  test("to 1954 moves D 21.5 cents up, and names the source", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    const before = hertzOf(page.element.setup, "d");
    await page.openPanel("Scale");
    await page.press("Scale", "1954");
    expect(1200 * Math.log2(hertzOf(page.element.setup, "d") / before)).toBeCloseTo(21.5, 1);
    expect(page.said("Scale")).toContain("Acustica 4 (1954)");
    expect(page.sentence).toContain("Scale 1954.");
  });

  test("to one's own starts from the scale there was; a tuner reading of −20 for C puts it 380 cents over low A", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Scale");
    await page.press("Scale", "measured by you");
    expect(page.sentence).toContain("Scale as you measured it.");
    await page.type("Scale", 'input[aria-label^="C,"]', "-20");
    const { scale } = page.element.setup;
    expect(scale.kind === "measured" && scale.cents.c).toBe(380);
    expect(scale.kind === "measured" && scale.cents["high-g"]).toBeCloseTo(968.83, 2);
    expect(setupFault(page.element.setup)).toBeNull();
  });

  test("refuses a note out of order, and the field shows what still holds", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Scale");
    await page.press("Scale", "measured by you");
    const count = page.setups.length;
    await page.type("Scale", 'input[aria-label^="C,"]', "300");
    expect(page.setups).toHaveLength(count);
    expect(page.said("Scale")).toContain("It was left as it was.");
    expect((page.panel("Scale").querySelector('input[aria-label^="C,"]') as HTMLInputElement).value).toBe("-13.7");
  });
});

describe("cross-fingerings", () => {
  test("ticked are said to speak, and bring their keys", async () => {
    const page = await SetupPage.open(defaultSetup("B"), keyFromName("B major"));
    await page.openPanel("Cross-fingerings");
    expect(page.said("Cross-fingerings")).toContain("In B major the leading tone is high G♯, cross-fingered, upper octave only.");
    await page.press("Cross-fingerings", "high G♯ speaks");
    expect(page.sentence).toContain("The leading tone speaks; C and F natural do not.");
    expect(page.sentence).toContain("8 keys in reach.");
  });

  test("have eight holes to press: closed, open, half and closed again", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    const panel = await page.openPanel("Cross-fingerings");
    const holes = () => panel.querySelector("hole-row")?.shadowRoot?.querySelectorAll("button") as NodeListOf<HTMLButtonElement>;
    expect(holes()).toHaveLength(8);
    expect(holes()[0]?.getAttribute("aria-label")).toBe("thumb: closed");
    for (const [text, words] of [
      ["O", "open"],
      ["H", "half open"],
      ["X", "closed"],
    ] as const) {
      holes()[0]?.click();
      await page.settled();
      await (panel.querySelector("hole-row") as LitElement).updateComplete;
      expect(page.element.setup.crossFingerings[0]?.holes).toBe(`${text} XXX XOXX`);
      expect(holes()[0]?.getAttribute("aria-label")).toBe(`thumb: ${words}`);
    }
  });

  test("are not fingered as another note is, and come past such holes", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    const panel = await page.openPanel("Cross-fingerings");
    const press = async (finger: string) => {
      panel.querySelector("hole-row")?.shadowRoot?.querySelector<HTMLButtonElement>(`button[aria-label^="${finger}:"]`)?.click();
      await page.settled();
      await (panel.querySelector("hole-row") as LitElement).updateComplete;
    };
    await press("lower ring");
    expect(page.said("Cross-fingerings")).toContain(
      "So fingered, C natural would be C: two notes cannot be fingered alike. It is not kept like this.",
    );
    expect(page.element.setup.crossFingerings[0]?.holes).toBe("X XXX XOXX");
    await press("lower ring");
    expect(page.element.setup.crossFingerings[0]?.holes).toBe("X XXX XOHX");
    expect(page.said("Cross-fingerings")).not.toContain("not kept");
  });

  test("take another fingering in use, and a tuner's reading", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Cross-fingerings");
    await page.press("Cross-fingerings", "Or X XXX XOXO");
    expect(page.element.setup.crossFingerings[0]?.holes).toBe("X XXX XOXO");
    await page.type("Cross-fingerings", 'input[aria-label^="high G sharp"]', "-21");
    expect(page.element.setup.crossFingerings[2]?.cents).toBe(1079);
  });
});

describe("drones", () => {
  test("can be corked, retuned, and joined by a baritone that can go again", async () => {
    const page = await SetupPage.open(defaultSetup("Bb"));
    await page.openPanel("Drones");
    expect(page.said("Drones")).toContain("B♭2 116.5 Hz");
    await page.press("Drones", "Tenor 1");
    expect(page.sentence).toContain("Drones: a tenor and a bass.");
    await page.press("Drones", "Add a baritone");
    expect(page.sentence).toContain("Drones: a baritone, a tenor and a bass.");
    await page.type("Drones", 'select[aria-label^="Baritone"]', "3/4");
    expect(page.element.setup.drones[3]?.ratio).toEqual([3, 4]);
    expect(page.said("Drones")).toContain("F4 349.6 Hz");
    await page.press("Drones", "Take the baritone away");
    expect(page.element.setup.drones).toHaveLength(3);
  });

  test("take any ratio under low A, and refuse one over it", async () => {
    const page = await SetupPage.open(defaultSetup("Bb"));
    await page.openPanel("Drones");
    await page.type("Drones", 'select[aria-label^="Bass"]', "own");
    await page.type("Drones", "input.own", "3/10");
    expect(page.element.setup.drones[2]?.ratio).toEqual([3, 10]);
    await page.type("Drones", "input.own", "3/2");
    expect(page.element.setup.drones[2]?.ratio).toEqual([3, 10]);
    expect(page.said("Drones")).toContain("at or under low A");
    await page.type("Drones", "input.own", "deep");
    expect(page.said("Drones")).toContain("“deep” is no ratio.");
  });
});

test("The table of keys names each with its written key, tonic and reach, then what other cross-fingerings would bring", async () => {
  const page = await SetupPage.open(defaultSetup("B"));
  const panel = await page.openPanel("Keys in reach");
  const rows = [...panel.querySelectorAll("tbody tr")].map((row) =>
    [...row.children].map((cell) => (cell.textContent ?? "").replace(/\s+/g, " ").trim()),
  );
  expect(rows).toEqual([
    ["E major written D major", "the nine", "D, a fifth down, a fifth up"],
    ["B mixolydian written A mixolydian", "the nine", "low A, a tone down, an octave up"],
    ["F♯ dorian written E dorian", "the nine", "E, a major sixth down, a fourth up"],
    ["C♯ minor written B minor", "the nine", "B, a major third down, a minor seventh up"],
  ]);
  expect(page.said("Keys in reach")).toContain("With high G♯ speaking: B major, F♯ mixolydian, C♯ dorian, G♯ minor.");
});

describe("fingering the nine", () => {
  const press = async (page: SetupPage, note: string, finger: string) => {
    const rows = [...page.panel("Fingerings").querySelectorAll("hole-row")];
    const row = rows.find((one) => one.getAttribute("label") === note);
    row?.shadowRoot?.querySelector<HTMLButtonElement>(`button[aria-label^="${finger}:"]`)?.click();
    await page.settled();
  };

  test("shows all nine, highest first, and opens a hole that is pressed", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    const panel = await page.openPanel("Fingerings");
    expect([...panel.querySelectorAll("dt")].map(({ textContent }) => textContent)).toEqual([
      "high A",
      "high G",
      "F",
      "E",
      "D",
      "C",
      "B",
      "low A",
      "low G",
    ]);
    await press(page, "D", "lower little");
    expect(page.setups.at(-1)?.fingerings.d).toBe("X XXX OOOO");
    expect(page.sentence).toContain("Fingered as usual but for D.");
  });

  test("says which gracenote no longer divides the note, and goes back to the usual holes", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Fingerings");
    await press(page, "low A", "upper index");
    expect(page.said("Fingerings")).toMatch(/no longer divided by .* or a G gracenote\./);
    await page.press("Fingerings", "Back to X XXX XXXO for low A");
    expect(page.setups.at(-1)?.fingerings).toEqual(defaultSetup("B").fingerings);
    expect(page.sentence).toContain("Fingered as usual.");
  });

  test("refuses holes that another note has, and says which", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Fingerings");
    await press(page, "low G", "lower little");
    expect(page.setups).toEqual([]);
    expect(page.said("Fingerings")).toContain(
      "So fingered, low G would be low A: two notes cannot be fingered alike. It is not kept like this.",
    );
  });

  test("comes past holes that another note has: low G with its little finger half on is two presses away, low A between", async () => {
    const page = await SetupPage.open(defaultSetup("B"));
    await page.openPanel("Fingerings");
    await press(page, "low G", "lower little");
    await press(page, "low G", "lower little");
    expect(page.setups.map(({ fingerings }) => fingerings["low-g"])).toEqual(["X XXX XXXH"]);
    expect(page.said("Fingerings")).not.toContain("not kept");
  });
});
