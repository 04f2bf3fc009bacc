package tracksoak.bench.job;

import java.util.List;
import tracksoak.bench.phase.run.Plan;
import tracksoak.report.record.facts.DriveFacts;

/**
 * What a climb would do: where it would write, how much and for how long. Nothing is touched.
 *
 * @param folder the folder on the drive that would be made
 * @param records the folder on this computer
 * @param behaves how a simulated drive behaves, one trait a text; empty for any other
 */
public record ClimbDryRun(
        DriveFacts drive, String folder, String records, List<String> behaves, ClimbTerms terms, ClimbRoom room) {

    /** Short takes of a climb that does not begin far off: four for each number. */
    private static final int USUAL_TAKES_EACH = 4;

    private int numbers() {
        return terms.askLoss() ? 2 : 1;
    }

    /** Short takes, about. */
    public int takes() {
        return numbers() * USUAL_TAKES_EACH;
    }

    /** Sound-checks, at least. */
    public int checks() {
        return numbers() * (terms.proveAbove() ? 2 : 1);
    }

    /** All takes, about, in s. */
    public double seconds() {
        Plan check = terms.check();
        return takes() * terms.shortTakeS() + checks() * (check.takeBeforeS() + check.takeAfterS());
    }

    /** All fills, at most, in s. */
    public double fillSeconds() {
        return terms.fillCapS() + checks() * terms.check().fillCapS();
    }

    /** At most, about, if each number is confirmed at once. */
    public long writtenBytes() {
        return room.fillBytes() + takes() * room.takeBytes() + checks() * room.checkBytes();
    }
}
