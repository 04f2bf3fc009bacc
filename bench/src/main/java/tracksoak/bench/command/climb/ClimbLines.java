package tracksoak.bench.command.climb;

import tracksoak.bench.climb.ClimbRunner.Purpose;
import tracksoak.bench.climb.Ladder;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.console.TerminalListener;
import tracksoak.bench.job.ClimbLook;
import tracksoak.profiles.base.Count;
import tracksoak.profiles.base.Quantity;
import tracksoak.profiles.base.Units;

/** The news of a climb in lines. */
final class ClimbLines extends TerminalListener {

    ClimbLines(Console console, Runnable onHang) {
        super(console, onHang);
    }

    @Override
    public void climbs(ClimbLook look) {
        if (look.purpose() == Purpose.FILL) {
            say("filling the drive until it is steady, " + Units.seconds(look.fillCapS()) + " at most");
            return;
        }
        say((look.purpose() == Purpose.TAKE ? "take at " : "sound-check at ")
                + amount(look.value(), look.grows())
                + (look.leftS() < 0 ? "" : "; all in all about " + Units.seconds(look.leftS()) + " left"));
    }

    static String amount(int value, Ladder.Kind kind) {
        return kind == Ladder.Kind.TRACKS ? Count.inDigits(value, "track") : Quantity.plain(value / 1000.0) + " kHz";
    }
}
