/** What a sensor offers, independent of the Bluetooth host that serves it. */

export interface CharacteristicDefinition {
  readonly uuid: string;
  readonly properties: readonly ('read' | 'write' | 'notify' | 'indicate')[];
  /** The value, or the number of an ATT error. */
  readonly read?: () => Uint8Array | number;
  /** Undefined where the value was taken, or the number of an ATT error. */
  readonly write?: (value: Uint8Array) => number | undefined;
  /** Notifications or indications were asked for, or are no longer wanted, as when the link ends. */
  readonly subscription?: (on: boolean) => void;
}

export interface ServiceDefinition {
  readonly uuid: string;
  readonly characteristics: readonly CharacteristicDefinition[];
}

/** What a sensor needs of the host that serves it. */
export interface PeripheralHost {
  /** Sends to a central that has subscribed; false where there is none. */
  notify(uuid: string, value: Uint8Array): boolean;
  /** The same with a confirmation: the next one waits until this one is confirmed. */
  indicate(uuid: string, value: Uint8Array): boolean;
  /** Calls once, later, when everything sent so far is on its way; never where the link ends before. */
  whenRoom(call: () => void): void;
}
