import type {
  Bus,
  Channel,
  Desk,
  Earphone,
  Kit,
  Listener,
  MonitorSystem,
  Piece,
  Preferences,
  Recording,
  Send,
  Setup,
  TapPoint,
} from "../core/model/setup";

/** A setup with what its file says of it. */
export interface NotedSetup extends Setup {
  readonly note: string;
  /** Invented data, shown as such. */
  readonly example: boolean;
}

/** Where something stands, in metres to the right and in front. */
export type RightAndFront = readonly [x: number, y: number];

/** What two states of a thing are compared by. A field of the setup that is left out does not compile. */
export interface ComparedValues {
  readonly setup: Pick<NotedSetup, "note" | "example">;
  readonly kit: Omit<Kit, "pieces">;
  readonly piece: Omit<Piece, "id" | "x" | "y"> & { readonly place: RightAndFront };
  readonly desk: Omit<Desk, "portName" | "firstPort" | "muteRule"> & {
    readonly port: readonly [name: string, first: number];
    readonly mutesSends: boolean;
    readonly mutesDirectOuts: readonly TapPoint[];
  };
  readonly channel: Omit<Channel, "id">;
  readonly bus: Omit<Bus, "id" | "sends" | "sideTrim" | "sideInverted"> & {
    readonly trimL: number;
    readonly trimR: number;
    readonly invertedL: boolean;
    readonly invertedR: boolean;
  };
  readonly send: Omit<Send, "channel">;
  readonly listener: Omit<Listener, "id" | "x" | "y"> & { readonly place: RightAndFront };
  readonly monitor: Omit<MonitorSystem, "inputs" | "mixers"> & {
    readonly canFlip: boolean;
    readonly canGoMono: boolean;
  };
  readonly preferences: Preferences;
  readonly recording: Omit<Recording, "channels" | "correlation">;
  readonly earphone: Omit<Earphone, "sensitivity" | "unit"> & {
    readonly sensitivity: readonly [figure: number, unit: Earphone["unit"]];
  };
}

/** What has fields that are compared. */
export type ComparedKind = keyof ComparedValues;

/** A field that a kind of thing is compared by. */
export type ComparedField<K extends ComparedKind = ComparedKind> = {
  [Kind in K]: keyof ComparedValues[Kind] & string;
}[K];
