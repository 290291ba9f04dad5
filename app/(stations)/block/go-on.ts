/** On to the next field of the form that holds the cursor; false at the last one. */
export function goOn(): boolean {
  const at = document.activeElement;
  const fields = [...(at?.closest('form')?.querySelectorAll('input') ?? [])];
  const next = at instanceof HTMLInputElement ? fields[fields.indexOf(at) + 1] : undefined;
  next?.focus();
  next?.select();
  return next !== undefined;
}
