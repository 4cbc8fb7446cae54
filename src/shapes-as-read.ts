// Lets zod read each shape as it was described. By itself it first writes a program for every object, which V8 must compile anew at
// each start and nothing keeps: reading the plan of the sample for the first time took three times as long, and later no less.
import { z } from 'zod'

z.config({ jitless: true })
