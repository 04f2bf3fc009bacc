package tracksoak.report.roster.identity;

import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Problem.Kind;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.Serials;

/**
 * The hardware of a drive as the computer saw it. Texts come from hardware and may hold anything; null means unknown.
 *
 * @param maker maker
 * @param model model
 * @param serial serial number
 * @param sizeBytes size of the whole drive in bytes
 */
public record DriveIdentity(
        @Nullable String maker,
        @Nullable String model,
        @Nullable String serial,
        @Nullable Long sizeBytes) {

    private static final long MOST_BYTES = 1L << 52;

    /** The hardware of a drive that was under test; runs of white space count as one space. */
    public static DriveIdentity of(DriveFacts facts) {
        return of(facts.maker(), facts.model(), facts.serial(), facts.sizeBytes());
    }

    /** The hardware of a drive as found; the texts as they came. */
    public static DriveIdentity of(
            @Nullable String maker, @Nullable String model, @Nullable String serial, @Nullable Long sizeBytes) {
        return new DriveIdentity(tidy(maker), tidy(model), tidy(serial), sizeBytes);
    }

    /** Whether the serial tells it from any other drive of its model; else it needs a tag. */
    public boolean unique() {
        return Serials.usable(serial);
    }

    /** As people read it: maker and model in one line that is harmless to look at; {@code unknown drive} without either. */
    public String title() {
        String title = ((maker == null ? "" : maker + " ") + (model == null ? "" : model)).strip();
        return title.isEmpty() ? "unknown drive" : Inert.text(title);
    }

    /**
     * Bounds, for what comes from outside.
     *
     * @throws Problem if a part is out of them
     */
    public void check() {
        boolean fine = fits(maker)
                && fits(model)
                && fits(serial)
                && (sizeBytes == null || (sizeBytes >= 0 && sizeBytes <= MOST_BYTES));
        if (!fine) {
            throw Kind.REFUSED.problem(
                    "the hardware of a drive",
                    "a part is longer than " + Inert.LONGEST + " characters, not tidy or out of range",
                    "the event is damaged or was edited: get it again");
        }
    }

    private static boolean fits(@Nullable String text) {
        return text == null || text.equals(tidy(text));
    }

    private static @Nullable String tidy(@Nullable String raw) {
        String kept = Inert.kept(raw);
        return kept == null ? null : Inert.kept(kept.replaceAll("\\s+", " "));
    }
}
