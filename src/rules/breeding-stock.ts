// Sales of breeding, dairy, draft and sporting stock: how long it must be held, and which part of the gain is ordinary.
import { stockHoldingMonths } from './data/farm-timing.ts'
import { inForce } from './in-force.ts'

export type StockSpecies = 'cattle' | 'horses' | 'sheep' | 'goats' | 'hogs' | 'other-mammals' | 'poultry'

export interface StockSale {
  year: number
  species: StockSpecies
  /** Raised animals have no basis, because their costs were deducted as they came. */
  origin: 'raised' | 'purchased'
  /** Kept for breeding, dairy, draft or sport, not mainly for sale. */
  heldForUse: boolean
  /** Whole months from acquisition or birth to sale. */
  monthsHeld: number
  /** Sale price less selling costs, dollars. */
  netPrice: number
  /** Purchase cost and the depreciation allowed so far, dollars; 0 for raised stock. */
  cost: number
  depreciationAllowed: number
}

/** How a sale is taxed. No part is self-employment income unless the animals were kept for sale. */
export interface StockSaleResult {
  form: 'schedule-f' | '4797-part-i' | '4797-part-ii' | '4797-part-iii'
  gain: number
  /** Ordinary income on Form 4797 (short holding, depreciation taken back) or farm income on Schedule F. */
  ordinary: number
  /** Section 1231 gain or loss: taxed as a long-term gain when the year's net is a gain, ordinary when a loss. */
  section1231: number
  selfEmploymentIncome: number
  source: string
}

const source = '26 USC 1231(b)(3), 1245; 26 CFR 1.1231-2; IRS Pub. 225 (sales of farm property)'

/**
 * Splits one sale; poultry never qualifies. Depreciation counts up to the cost, so the basis is never below zero. Stock held for use but too short a
 * time is ordinary income on Form 4797 Part II (from memory), still without self-employment tax.
 */
export const stockSale = (sale: StockSale): StockSaleResult => {
  const allowed = Math.min(sale.depreciationAllowed, sale.cost)
  const basis = sale.origin === 'raised' ? 0 : sale.cost - allowed
  const gain = sale.netPrice - basis
  const required = inForce(stockHoldingMonths, sale.year)[sale.species]!
  if (!sale.heldForUse || required === 0) {
    return {
      form: 'schedule-f',
      gain,
      ordinary: gain,
      section1231: 0,
      selfEmploymentIncome: gain,
      source,
    }
  }
  if (sale.monthsHeld < required) {
    return { form: '4797-part-ii', gain, ordinary: gain, section1231: 0, selfEmploymentIncome: 0, source }
  }
  const takenBack = sale.origin === 'purchased' ? Math.max(0, Math.min(gain, allowed)) : 0
  return {
    form: takenBack > 0 ? '4797-part-iii' : '4797-part-i',
    gain,
    ordinary: takenBack,
    section1231: gain - takenBack,
    selfEmploymentIncome: 0,
    source,
  }
}
