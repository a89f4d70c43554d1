import { opc30050, opc30060 } from '../../../model/packml/packml.ts';
import * as status from '../../../model/status/status.ts';
import { from, type Topic } from './check.ts';

const numbers = Array.from({ length: 17 }, (_, place) => place);
const hex = (code: number) => `0x${code.toString(16).toUpperCase().padStart(8, '0')}`;

export const states: Topic = {
  title: 'States and status codes',
  about: 'PackML state numbers of two standards, OPC UA status codes.',
  checks: [
    ...from('[F] node set of OPC 30050, v1.01 of 2020-10-08', [
      [
        'states 1 to 17',
        'Clearing, Stopped, Starting, Idle, Suspended, Execute, Stopping, Aborting, Aborted, Holding, Held, Unholding, Suspending, Unsuspending, Resetting, Completing, Complete',
        () => numbers.map((number) => opc30050.get(number + 1)),
      ],
    ]),
    ...from('[F] OPC 30060', [
      [
        'states 0 to 16',
        'Stopped, Resetting, Idle, Starting, Execute, Completing, Complete, Aborting, Aborted, Stopping, Clearing, Suspending, Suspended, Unsuspending, Holding, Held, Unholding',
        () => numbers.map((number) => opc30060.get(number)),
      ],
    ]),
    ...from('[F+C] OPC 10000-4, node-opcua-status-code 2.181.0', [
      [
        'Good, UncertainLastUsableValue',
        '0x00000000, 0x40900000',
        () => [hex(status.GOOD), hex(status.UNCERTAIN_LAST_USABLE_VALUE)],
      ],
      [
        'BadCommunicationError, BadNoCommunication, BadDataLost',
        '0x80050000, 0x80310000, 0x809D0000',
        () => [status.BAD_COMMUNICATION_ERROR, status.BAD_NO_COMMUNICATION, status.BAD_DATA_LOST].map(hex),
      ],
      [
        'severity of GoodLocalOverride, UncertainDataSubNormal, BadNoData',
        'good, uncertain, bad',
        () => [0x00960000, 0x40a40000, 0x809b0000].map(status.severity),
      ],
    ]),
    ...from('[M] OPC 10000-4, 7.39', [
      [
        'overflow in 0x480, 0x80, 0x400, 0',
        'true, true, false, false',
        () => [0x480, 0x80, 0x400, 0].map((code) => String(status.overflowed(code))),
      ],
    ]),
  ],
};
