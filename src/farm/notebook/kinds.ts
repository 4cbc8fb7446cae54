// The words of the farm's notebook: what can be noted, and how people read it.

/** What happens to a batch. `weighed` takes none away; `processed` turns live ones into goods and leaves as many to sell. */
export const batchMarkKinds = ['lost', 'sold', 'processed', 'weighed'] as const
export type BatchMarkKind = (typeof batchMarkKinds)[number]

/** `counted` says how many stand there; the others say how many came or went. */
export const headKinds = ['counted', 'born', 'bought', 'sold', 'died'] as const
export type HeadKind = (typeof headKinds)[number]

/** As the plan tells heads apart: breeding females, females kept to breed that are still growing, young for sale, males. */
export const headClasses = ['females', 'kept', 'young', 'males'] as const
export type HeadClass = (typeof headClasses)[number]

export const meansOfPay = ['cash', 'card', 'check', 'other'] as const
export type MeansOfPay = (typeof meansOfPay)[number]

/** A trip for the farm, or a reading of the odometer at a day. */
export const tripKinds = ['farm', 'reading'] as const
export type TripKind = (typeof tripKinds)[number]

/** Goods to the house's kitchen, or bartered for something the house would have bought. */
export const goodsKinds = ['kitchen', 'bartered'] as const
export type GoodsKind = (typeof goodsKinds)[number]

/** `set_aside`: looked at, and nothing is to be booked. */
export const goodsStates = ['waiting', 'booked', 'set_aside'] as const
export type GoodsState = (typeof goodsStates)[number]
