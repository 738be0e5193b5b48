/** What a small controller of the first Low Energy generation always answers beside 'success'. */
import { COMMAND, uint16 } from './hci.ts';

/** 27 bytes are the least allowed. */
const ACL_BUFFER = { bytes: 27, count: 4 } as const;
/** HCI version 6 is Bluetooth 4.0 (Assigned Numbers, section 2.1). */
const HCI_VERSION = 6;

export const FIXED_ANSWERS: ReadonlyMap<number, readonly Buffer[]> = new Map([
  [COMMAND.setEventMask, []],
  [COMMAND.leSetEventMask, []],
  [COMMAND.writeLeHostSupport, []],
  [COMMAND.readLeHostSupport, [Buffer.from([1, 0])]],
  [COMMAND.readLocalVersion, [Buffer.from([HCI_VERSION, 0, 0, HCI_VERSION, 0, 0, 0, 0])]],
  [COMMAND.leReadFeatures, [Buffer.alloc(8)]],
  [COMMAND.leReadBufferSize, [uint16(ACL_BUFFER.bytes), Buffer.from([ACL_BUFFER.count])]],
  [COMMAND.leSetAdvertisingParameters, []],
  [COMMAND.leSetScanParameters, []],
]);
