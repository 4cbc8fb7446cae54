// npm runs this once the house and its libraries are installed: the bundle is made then, and the first start need not.
import { readyBundle } from './bundle.mjs'

// What hinders it is no reason not to be installed: the first start tries again, and says what it was.
await readyBundle().catch((error) =>
  console.warn(`The bundle will be made at the first start: ${error.message}`),
)
