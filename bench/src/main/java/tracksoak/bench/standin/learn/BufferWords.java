package tracksoak.bench.standin.learn;

import java.util.ArrayList;
import java.util.List;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Units;

/** What stops have shown of a recorder's buffer, in words. Stateless. */
public final class BufferWords {

    private BufferWords() {}

    /** One sentence a line, the most important first. */
    public static List<String> lines(BufferFound found) {
        List<String> lines = new ArrayList<>();
        lines.add("It " + LearnedSession.bounds(found) + ", per track.");
        if (found.heldS().isPresent() && found.unseenS() > 0) {
            lines.add("That is " + LearnedSession.s(found.unseenS())
                    + " less than waited: so much lost on a track would not have shown.");
        }
        if (!found.measured()) {
            lines.add("That is no measured buffer: "
                    + (found.heldS().isPresent()
                            ? "a recorder that puts silence in the place of lost audio writes the same. Measure again"
                                    + " with the test signal in the inputs, with --ask, or with a larger --longest."
                            : "measure again with a smaller --first."));
        }
        lines.add("A chunk takes " + Units.seconds(found.chunkS())
                + " to fill: no buffer is known better than to about that.");
        if (!found.onOverrun().isEmpty()) {
            lines.add("On overrun the recorder " + found.onOverrun()
                    + (Double.isNaN(found.tracksHit())
                            ? "."
                            : found.tracksHit() > 0.99
                                    ? "; all files lost audio at once."
                                    : "; " + Math.round(found.tracksHit() * 100) + " % of the files lost audio."));
        }
        lines.add("Whether all tracks share one buffer: measure again with half the tracks, with --against and this"
                + " trace and image.");
        for (Tried one : found.tried()) {
            lines.add("Stop of " + Units.seconds(one.stopS()) + ", " + Units.seconds(one.backlogS())
                    + " of audio waiting on each track: "
                    + (one.ended()
                            ? "the recorder ended the take"
                            : one.lost()
                                    ? one.filesHit() == 0
                                            ? "audio lost"
                                            : "audio lost on " + Count.of(one.filesHit(), "file") + ", up to "
                                                    + Units.seconds(one.lostS())
                                    : one.doubtful()
                                            ? "cannot be told, so it counts neither as held nor as lost: all tracks"
                                                    + " together fell short, but no file"
                                                    + " by the"
                                                    + " " + Units.seconds(one.unseenS())
                                                    + " that can be told apart"
                                            : "held")
                    + (one.doubtful() ? "." : " (told by the " + one.by() + ")."));
        }
        return lines;
    }
}
