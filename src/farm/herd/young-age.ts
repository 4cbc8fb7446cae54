// How old young are of which only the heads are known: by the herd's months of birth.
import { type Month, monthOfYear } from '#calendar/month.ts'
import type { HerdRates } from './herd-document.ts'

/** Whole months, as a month begins: of the latest birth whose young are of the `least` age by then; without months of birth just weaned. */
export const ageAsBegins = (
  { birthMonths, weaningAgeMonths }: Pick<HerdRates, 'birthMonths' | 'weaningAgeMonths'>,
  at: Month,
  least: number,
): number => {
  const ages = birthMonths.map((birth) => {
    const youngest = (monthOfYear(at) - birth + 11) % 12
    return youngest + 12 * Math.max(0, Math.ceil((least - youngest) / 12))
  })
  return ages.length === 0 ? weaningAgeMonths : Math.min(...ages)
}
