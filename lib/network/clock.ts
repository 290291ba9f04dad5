/** How far the clock of a device is from the server's, in words. */

/** From so much on a device's times mislead people; certificates bear far more. */
const CLOCK_MATTERS_MS = 5 * 60_000;
const STEPS = [
  ['day', 86_400_000],
  ['hour', 3_600_000],
  ['minute', 60_000],
] as const;

/** Such as `2 days slow` where the clocks differ by more than five minutes; empty where they agree. Both in milliseconds since 1970. */
export function clockOffBy(device: number, server: number): string {
  const off = Math.abs(device - server);
  if (off <= CLOCK_MATTERS_MS) return '';
  const [unit, ms] = STEPS.find(([, size]) => off >= 2 * size) ?? (['minute', 60_000] as const);
  return `${Math.round(off / ms)} ${unit}s ${device < server ? 'slow' : 'fast'}`;
}

/** A sentence where the clocks differ by more than five minutes; empty where they agree. Both in milliseconds since 1970. */
export function clockOff(device: number, server: number): string {
  const off = clockOffBy(device, server);
  return off && `The clock of this device is ${off}: set it to the hall's time, then reload this page.`;
}
