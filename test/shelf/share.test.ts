import { describe, expect, it } from "vitest";
import { copyText, type SharePlatform, shareFile, shareLink } from "../../src/shelf/share";

const LINK = "https://example.org/#s=1.a.b.c";

/** A browser that has the parts named, and what they were given. */
const browser = (parts: {
  share?: "works" | "closed" | "refused";
  clipboard?: "works" | "refused";
  files?: boolean;
}) => {
  const given: unknown[] = [];
  const platform: SharePlatform = {
    ...(parts.share
      ? {
          share: async (data: ShareData) => {
            if (parts.share === "closed") throw new DOMException("", "AbortError");
            if (parts.share === "refused") throw new DOMException("", "NotAllowedError");
            given.push(data);
          },
          canShare: (data: ShareData) => data.files === undefined || parts.files === true,
        }
      : {}),
    ...(parts.clipboard
      ? {
          clipboard: {
            writeText: async (text: string) => {
              if (parts.clipboard === "refused") throw new DOMException("", "NotAllowedError");
              given.push(text);
            },
          },
        }
      : {}),
  };
  return { platform, given };
};

describe("sharing a link", () => {
  it("takes the system's sheet", async () => {
    const { platform, given } = browser({ share: "works", clipboard: "works" });
    expect(await shareLink("Soul band", LINK, platform)).toBe("shared");
    expect(given).toEqual([{ title: "Soul band", url: LINK }]);
  });

  it("is over when the user closes it: nothing is copied behind their back", async () => {
    const { platform, given } = browser({ share: "closed", clipboard: "works" });
    expect(await shareLink("Soul band", LINK, platform)).toBe("dismissed");
    expect(given).toEqual([]);
  });

  it("copies where there is no sheet or it is refused, and says when that fails too", async () => {
    for (const share of [undefined, "refused"] as const) {
      const { platform, given } = browser({ ...(share ? { share } : {}), clipboard: "works" });
      expect(await shareLink("Soul band", LINK, platform)).toBe("copied");
      expect(given).toEqual([LINK]);
    }
    expect(await copyText(LINK, browser({ clipboard: "refused" }).platform)).toBe("failed");
    expect(await shareLink("Soul band", LINK, {})).toBe("failed");
  });
});

describe("sharing a file", () => {
  const file = new File(["{}"], "soul-band.json", { type: "application/json" });
  const save = (kept: File[]) => (f: File) => {
    kept.push(f);
    return "saved" as const;
  };

  it("takes the sheet where it takes files", async () => {
    const { platform, given } = browser({ share: "works", files: true });
    const kept: File[] = [];
    expect(await shareFile(file, platform, save(kept))).toBe("shared");
    expect([given.length, kept.length]).toEqual([1, 0]);
  });

  it("saves it where there is no sheet for files, and not when the user closes one", async () => {
    for (const parts of [{}, { share: "works" }, { share: "refused", files: true }] as const) {
      const kept: File[] = [];
      expect(await shareFile(file, browser(parts).platform, save(kept))).toBe("saved");
      expect(kept).toEqual([file]);
    }
    const kept: File[] = [];
    expect(await shareFile(file, browser({ share: "closed", files: true }).platform, save(kept))).toBe(
      "dismissed",
    );
    expect(kept).toEqual([]);
  });
});
