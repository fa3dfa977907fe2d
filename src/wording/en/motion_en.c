#include "wording/language.h"

#define QLL_PUT(name) [QLL_TEXT_##name - QLL_TEXT_FIRST_MOTION]

const char *const qll_motion_en[QLL_TEXT_SIZE(MOTION)] = {
    QLL_PUT(PIPE_LENGTH) = "the pipe is {1} long; a length is over 0 and at most {2}",
    QLL_PUT(PIPE_BORE) = "the pipe's bore is {1}; a bore is over 0 and at most {2}",
    QLL_PUT(PIPE_WAVE_SPEED) = "pressure waves run at {1} in this pipe; {2} to {3} can be",
    QLL_PUT(PIPES_IN_A_LOOP) = "this closes a loop; pipes may only branch, so that water has one way from the main to each outlet",
    QLL_PUT(MOVE_TIME) = "the outlet moves within {1}; opening or closing takes more than 0",
    QLL_PUT(MOVE_ORDER) = "the outlet starts to move at {1}, before its last move is over at {2}",
    QLL_PUT(MOVE_SHARE) = "an outlet is open by a share from 0 to 1, not {1}",
    QLL_PUT(PIPE_NO_LENGTH) = "this pipe is {1} long; water in motion needs the length of every pipe",
    QLL_PUT(HINT_PIPE_NO_LENGTH) = "give its length, or take it out and add its fittings to the pipe next to it",
    QLL_PUT(VALVE_CANNOT_MOVE) = "what the catalog says of {1} leaves it no spring, travel or mass to move with",
    QLL_PUT(HINT_VALVE_CANNOT_MOVE) = "look at its spring, diaphragm, moving mass and inlet effect in the catalog",
};
