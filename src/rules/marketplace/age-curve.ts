// Premium factor by age.
import { federalAgeCurve } from '../data/age-curve.ts'

const curve = federalAgeCurve.values[2018]!

/** Premium at an age over the premium at 21, federal default curve. Whole years at the start of the policy year. */
export const ageFactor = (age: number): number =>
  curve[Math.min(curve.length - 1, Math.max(0, Math.floor(age)))]!
