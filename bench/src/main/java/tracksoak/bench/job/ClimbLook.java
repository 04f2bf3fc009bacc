package tracksoak.bench.job;

import tracksoak.bench.climb.ClimbRunner.Purpose;
import tracksoak.bench.climb.Ladder;

/**
 * One look of a climb.
 *
 * @param value tracks or Hz
 * @param grows which of them
 * @param fillCapS longest time of the fill before the takes, in s
 * @param leftS about so long to the end of the climb with this look, in s; below 0 where time is virtual
 */
public record ClimbLook(Purpose purpose, int value, Ladder.Kind grows, double fillCapS, double leftS) {}
