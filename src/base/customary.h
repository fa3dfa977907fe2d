/* What a customary unit is in SI, for numbers in the source that a rule, a table or the trade gives in
 * it, and the bar: exact by NIST SP 811, appendix B.8 (pound-force per square inch to the last bit of a double). */
#ifndef QUELL_BASE_CUSTOMARY_H
#define QUELL_BASE_CUSTOMARY_H

#define QLL_INCH_M  0.0254
#define QLL_FOOT_M  0.3048
#define QLL_PSI_PA  6894.757293168361
#define QLL_BAR_PA  1e5
#define QLL_GPM_M3S (0.003785411784 / 60.0) /* US gallons a minute */

#endif
