// What a storm does to a plan month by month, beside the yearly shocks: factors and hours that are 1 and 0 in calm years.
export interface Weather {
  /** Factor on what the farm offers for sale. */
  salesFactor: Float64Array
  livingFactor: Float64Array
  premiumFactor: Float64Array
  /** Hours of the crew that are lost. */
  hoursLost: Float64Array
  /** A market closed to the farm in some months. */
  lostMarket: { id: string; from: number; months: number } | null
}

export const calmWeather = (months: number): Weather => ({
  salesFactor: new Float64Array(months).fill(1),
  livingFactor: new Float64Array(months).fill(1),
  premiumFactor: new Float64Array(months).fill(1),
  hoursLost: new Float64Array(months),
  lostMarket: null,
})
