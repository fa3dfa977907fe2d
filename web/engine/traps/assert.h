/* What is asserted and does not hold traps: nobody in a browser reads what the C library would write of it. */
#ifndef QUELL_WEB_ASSERT_H
#define QUELL_WEB_ASSERT_H

#define assert(holds) ((holds) ? (void)0 : __builtin_trap())
#define static_assert _Static_assert

#endif
