// Law of years before the project's data, only as far as the published examples of those years need it.
import { steadyIndexing } from '#rules/dated.ts'
import { type LawYear, lawFor } from '#rules/law.ts'

const law2024 = lawFor(2024, steadyIndexing(0))

const withStatuses = (starts: readonly (readonly number[])[]) => ({
  ordinaryStarts: starts,
  ordinaryTaxAtStart: starts.map((list) => {
    const taxes = [0]
    for (let band = 1; band < list.length; band += 1) {
      const rate = law2024.ordinaryRates[band - 1]!
      taxes.push(taxes[band - 1]! + rate * (list[band]! - list[band - 1]!))
    }
    return taxes
  }),
})

/** Rev. Proc. 2017-58 as changed by P.L. 115-97: joint schedule and child credit, from memory. */
export const law2018: LawYear = {
  ...law2024,
  year: 2018,
  ...withStatuses([
    [0, 9525, 38700, 82500, 157500, 200000, 500000],
    [0, 19050, 77400, 165000, 315000, 400000, 600000],
    [0, 13600, 51800, 82500, 157500, 200000, 500000],
    [0, 9525, 38700, 82500, 157500, 200000, 300000],
  ]),
  standardDeduction: [12000, 24000, 18000, 12000],
  seniorDeduction: 0,
  childCredit: 2000,
  childRefundableMax: 1400,
  wageBase: 128400,
  minimumTaxExemption: [70300, 109400, 70300, 54700],
  minimumTaxPhaseOutFrom: [500000, 1000000, 500000, 500000],
  minimumTaxUpperFrom: [191100, 191100, 191100, 95550],
}

/** Rev. Proc. 2020-45: single schedule, deduction with its addition at 65, business threshold, wage base; from memory. */
export const law2021: LawYear = {
  ...law2024,
  year: 2021,
  ...withStatuses([
    [0, 9950, 40525, 86375, 164925, 209425, 523600],
    [0, 19900, 81050, 172750, 329850, 418850, 628300],
    [0, 14200, 54200, 86350, 164900, 209400, 523600],
    [0, 9950, 40525, 86375, 164925, 209425, 314150],
  ]),
  standardDeduction: [12550, 25100, 18800, 12550],
  agedOrBlindAddition: [1700, 1350, 1700, 1350],
  seniorDeduction: 0,
  qbiThreshold: [164900, 329800, 164900, 164925],
  wageBase: 142800,
}

/** Rev. Proc. 2021-45: schedules, deductions, earned income credit, child credit; from memory. */
export const law2022: LawYear = {
  ...law2024,
  year: 2022,
  ...withStatuses([
    [0, 10275, 41775, 89075, 170050, 215950, 539900],
    [0, 20550, 83550, 178150, 340100, 431900, 647850],
    [0, 14650, 55900, 89050, 170050, 215950, 539900],
    [0, 10275, 41775, 89075, 170050, 215950, 323925],
  ]),
  standardDeduction: [12950, 25900, 19400, 12950],
  seniorDeduction: 0,
  childCredit: 2000,
  childRefundableMax: 1500,
  earnedCreditAmount: [7320, 10980, 15410, 15410],
  earnedCreditMax: [560, 3733, 6164, 6935],
  earnedCreditPhaseOutFrom: [9160, 20130, 20130, 20130],
  earnedCreditPhaseOutFromJoint: [15290, 26260, 26260, 26260],
  earnedCreditInvestmentMax: 10300,
  wageBase: 147000,
}

/** Percentages of 2014 as the regulation's examples use them (26 CFR 1.36B-3(g)); repayment limits of 26 USC 36B(f)(2)(B). */
export const law2014: LawYear = {
  ...law2024,
  year: 2014,
  applicableFrom: [0, 133, 150, 200, 250, 300],
  applicableInitial: [200, 300, 400, 630, 805, 950],
  applicableFinal: [200, 400, 630, 805, 950, 950],
  creditToPercent: 400,
  repaymentBandTo: [200, 300, 400],
  repaymentLimitSingle: [300, 750, 1250],
  repaymentLimitOther: [600, 1500, 2500],
}

/** The examples of 2017 and 2018 name only the flat percentage from 300 to 400 % of the poverty line. */
export const lawWithFlatPercent = (year: number, percent: number): LawYear => ({
  ...law2014,
  year,
  applicableFrom: [0],
  applicableInitial: [Math.round(percent * 100)],
  applicableFinal: [Math.round(percent * 100)],
  repaymentBandTo: [],
})
