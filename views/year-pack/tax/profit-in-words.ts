// What a business's form comes to, as far as it is known: the first sentence of the page on which its questions are answered.
import { type Cents, cents } from '#money/cents.ts'
import { formatCents } from '#money/format.ts'

export const profitInWords = (
  whose: string,
  { year, netProfitCents }: { year: number; netProfitCents: Cents },
  isOwn: boolean,
): string => {
  const by = isOwn ? 'With what is entered here' : 'Nothing is entered here yet: by the books'
  const result = netProfitCents < 0 ? 'loss' : 'profit'
  return `${by}, the ${result} of ${whose} in ${year} is ${formatCents(cents(Math.abs(netProfitCents)))}.`
}
