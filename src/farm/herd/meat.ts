// Young sold as meat: what one brings by the whole, half, quarter or cut, its processing, and what of it lies in the freezer.
import { z } from 'zod'
import { amount, dollars, share } from '#farm/document-fields.ts'

const ofHeads = 'Of those sold. What is left of all is sold by the cut'
const aPound = 'A pound of hanging weight, in dollars'

/** Weights in pounds. The parts sold whole, by the half and by the quarter go by hanging weight, the rest by the packaged pound. */
export const meatSchema = z
  .object({
    hangingWeight: amount.meta({ title: 'Hanging weight of one, pounds', told: 'pounds a head' }),
    packagedShare: share.optional().meta({ title: 'Of the hanging weight packaged, once cut' }),
    processingPerHead: dollars.optional().meta({ title: 'Kill, each', told: 'dollars a head' }),
    processingPerPound: dollars.optional().meta({
      title: 'Cut and wrap, a pound of hanging weight',
      told: 'dollars a pound of hanging weight',
      description: 'Empty where the buyer pays it',
    }),
    wholeShare: share.optional().meta({ title: 'Sold whole', description: ofHeads }),
    halfShare: share.optional().meta({ title: 'Sold by the half', description: ofHeads }),
    quarterShare: share.optional().meta({ title: 'Sold by the quarter', description: ofHeads }),
    wholePrice: dollars
      .optional()
      .meta({ title: 'Price of a whole', told: 'dollars a pound of hanging weight', description: aPound }),
    halfPrice: dollars
      .optional()
      .meta({ title: 'Price of a half', told: 'dollars a pound of hanging weight', description: aPound }),
    quarterPrice: dollars
      .optional()
      .meta({ title: 'Price of a quarter', told: 'dollars a pound of hanging weight', description: aPound }),
    cutPrice: dollars.optional().meta({
      title: 'Price of cuts',
      told: 'dollars a packaged pound',
      description: 'A packaged pound, on average of all cuts',
    }),
    cutsMonths: z
      .number()
      .int()
      .min(1)
      .max(24)
      .optional()
      .meta({ title: 'Cuts of one sell over', description: 'Empty: six', unit: 'months' }),
    freezerPerPound: dollars
      .optional()
      .meta({ title: 'Freezer, a packaged pound and month', told: 'dollars a packaged pound and month' }),
  })
  .refine((one) => partsByWeight(one).reduce((sum, part) => sum + part.share, 0) <= 1 + 1e-9, {
    error: 'Wholes, halves and quarters together are more than all of them',
    path: ['wholeShare'],
  })

type PartName = 'whole' | 'half' | 'quarter'
type Parts = { [name in `${PartName}${'Share' | 'Price'}`]?: number | undefined }

/** The parts of the heads that go by hanging weight, with the price of a pound. */
const partsByWeight = (meat: Parts): { share: number; price: number }[] => [
  { share: meat.wholeShare ?? 0, price: meat.wholePrice ?? 0 },
  { share: meat.halfShare ?? 0, price: meat.halfPrice ?? 0 },
  { share: meat.quarterShare ?? 0, price: meat.quarterPrice ?? 0 },
]

/** Wherever a figure of meat is what is left of its price. */
export const lessKill = 'less kill and cutting'

/** Dollars and pounds a head. */
export interface YoungWorth {
  /** Part of the heads that leaves as it is or by hanging weight, and what one of them brings, processing paid. */
  byWeight: number
  price: number
  /** Hanging weight of one, and what a pound of it brings on average, before kill and cutting. */
  hangingWeight: number
  hangingPrice: number
  /** What one of the others gives in packaged pounds, what a pound brings, and what its processing costs as it is cut. */
  pounds: number
  cutPrice: number
  processing: number
  cutsMonths: number
  freezerPerPound: number
  /** What one brings on average, processing paid. */
  perHead: number
}

interface Sold {
  meat?: z.infer<typeof meatSchema> | undefined
  prices: { youngSold: number }
}

export const youngWorth = ({ meat, prices }: Sold): YoungWorth => {
  const { youngSold } = prices
  if (meat === undefined)
    return {
      byWeight: 1,
      price: youngSold,
      hangingWeight: 0,
      hangingPrice: 0,
      pounds: 0,
      cutPrice: 0,
      processing: 0,
      cutsMonths: 0,
      freezerPerPound: 0,
      perHead: youngSold,
    }
  const processing = (meat.processingPerHead ?? 0) + (meat.processingPerPound ?? 0) * meat.hangingWeight
  const parts = partsByWeight(meat)
  const byWeight = Math.min(
    1,
    parts.reduce((sum, part) => sum + part.share, 0),
  )
  const gross = parts.reduce((sum, part) => sum + part.share * part.price, 0) * meat.hangingWeight
  const price = byWeight > 0 ? Math.max(0, gross / byWeight - processing) : 0
  const cutPrice = meat.cutPrice ?? 0
  const pounds = cutPrice > 0 ? meat.hangingWeight * (meat.packagedShare ?? 0) : 0
  return {
    byWeight,
    price,
    hangingWeight: meat.hangingWeight,
    hangingPrice: gross > 0 ? gross / byWeight / meat.hangingWeight : 0,
    pounds,
    cutPrice,
    processing,
    cutsMonths: meat.cutsMonths ?? 6,
    freezerPerPound: meat.freezerPerPound ?? 0,
    perHead: byWeight * price + (1 - byWeight) * (pounds * cutPrice - processing),
  }
}
