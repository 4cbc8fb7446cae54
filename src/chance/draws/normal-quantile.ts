// The standard normal distribution: its quantile, to about sixteen digits, and from it normal draws by inversion.

/**
 * The value below which a share `p` (0 < p < 1) of a standard normal lies.
 * M. J. Wichura, Algorithm AS 241: The Percentage Points of the Normal Distribution, Applied Statistics 37 (1988).
 * The coefficients are from memory, checked against printed percentage points in the tests.
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5
  if (Math.abs(q) <= 0.425) {
    const r = 0.180625 - q * q
    return (q * polynomial(r, centreTop)) / polynomial(r, centreBottom)
  }
  const tail = Math.sqrt(-Math.log(q < 0 ? p : 1 - p))
  const size =
    tail <= 5
      ? polynomial(tail - 1.6, middleTop) / polynomial(tail - 1.6, middleBottom)
      : polynomial(tail - 5, farTop) / polynomial(tail - 5, farBottom)
  return q < 0 ? -size : size
}

type EightTerms = readonly [number, number, number, number, number, number, number, number]

/** Horner's rule written out, highest power first: this runs in the innermost loop of every path. */
const polynomial = (x: number, c: EightTerms): number =>
  ((((((c[0] * x + c[1]) * x + c[2]) * x + c[3]) * x + c[4]) * x + c[5]) * x + c[6]) * x + c[7]

const centreTop: EightTerms = [
  2509.0809287301227, 33430.57558358813, 67265.7709270087, 45921.95393154987, 13731.69376550946,
  1971.5909503065513, 133.14166789178438, 3.3871328727963665,
]
const centreBottom: EightTerms = [
  5226.495278852546, 28729.085735721943, 39307.89580009271, 21213.794301586597, 5394.196021424751,
  687.1870074920579, 42.31333070160091, 1,
]
const middleTop: EightTerms = [
  0.0007745450142783414, 0.022723844989269184, 0.2417807251774506, 1.2704582524523684, 3.6478483247632045,
  5.769497221460691, 4.630337846156546, 1.4234371107496835,
]
const middleBottom: EightTerms = [
  1.0507500716444169e-9, 0.0005475938084995345, 0.015198666563616457, 0.14810397642748008, 0.6897673349851,
  1.6763848301838038, 2.053191626637759, 1,
]
const farTop: EightTerms = [
  2.0103343992922881e-7, 2.7115555687434876e-5, 0.0012426609473880784, 0.026532189526576124,
  0.29656057182850487, 1.7848265399172913, 5.463784911164114, 6.657904643501103,
]
const farBottom: EightTerms = [
  2.0442631033899397e-15, 1.421511758316446e-7, 1.8463183175100548e-5, 0.0007868691311456133,
  0.014875361290850615, 0.1369298809227358, 0.599832206555888, 1,
]
