/** Days and times as the hall has them: an evening sale is not tomorrow's because it is past midnight in UTC. */

/** The day of a moment on this machine's own clock, as an ISO 8601 date. */
export function dayOf(moment: string | Date): string {
  const at = new Date(moment);
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** The time of day of a moment, such as 14:05. */
export function timeOf(moment: string | Date): string {
  const at = new Date(moment);
  return `${two(at.getHours())}:${two(at.getMinutes())}`;
}

export function today(): string {
  return dayOf(new Date());
}

function two(part: number): string {
  return String(part).padStart(2, '0');
}
