/** What is wrong with the certificate of the encrypted line, as its laptop can tell: to a device that joins, and to the office. */

export interface LineFacts {
  /** The host by which the device came, as it is typed. */
  readonly host: string;
  /** Whether the certificate is for that host. */
  readonly covers: boolean;
  /** Milliseconds since 1970. */
  readonly validFrom: number;
  readonly validTo: number;
}

export interface Amiss {
  readonly device: string;
  readonly office: string;
}

const IN_A_MINUTE = 'While the hall is open a new one is made within a minute';

/** Undefined where nothing is; `now` is the laptop's own clock. */
export function certificateAmiss({ host, covers, validFrom, validTo }: LineFacts, now: number): Amiss | undefined {
  if (now > validTo)
    return {
      device: 'The certificate of the laptop has ended: tell the office. This device need not join again.',
      office: `The certificate has ended: no device gets in. ${IN_A_MINUTE}; if this stays, the terminal says why.`,
    };
  if (now < validFrom)
    return {
      device:
        'The certificate of the laptop is not good yet, because the clock of the laptop is wrong: tell the office.',
      office:
        'The certificate is not good yet: the clock of this laptop is behind. Set it; nothing else is to be done.',
    };
  if (!covers)
    return {
      device: `The certificate of the laptop is not for ${host}: use one of the other addresses on this page, or tell the office.`,
      office: `The certificate is not for ${host}. ${IN_A_MINUTE}; until then use another address.`,
    };
  return undefined;
}
