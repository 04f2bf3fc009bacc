package tracksoak.report.page.view;

import tracksoak.profiles.base.Count;

/**
 * What tells one kind of sheet from another.
 *
 * @param noun what the record is of, lower case: {@code run}; the downloaded record's name begins with {@link #file}
 * @param head what the letterhead says
 * @param file begins the name offered for the downloaded record
 * @param first stands above the one picture that is not folded
 * @param keep what to do with the record, a sentence
 */
public record SheetKind(String noun, String head, String file, String first, String keep) {

    public static final SheetKind RUN = new SheetKind(
            "run",
            "Drive test sheet",
            "record",
            "At its worst",
            "Keep it: it can be judged again for another session without a new run.");
    public static final SheetKind CLIMB = new SheetKind(
            "climb",
            "Climb sheet",
            "climb",
            "The climb",
            "Each sound-check has a sheet and a record of its own beside this file.");
    public static final SheetKind DRILL = new SheetKind("drill", "Unplug drill sheet", "drill", "What survived", "");

    public static final SheetKind INSPECTION =
            new SheetKind("inspection", "Recording sheet", "inspection", "What was found", "");

    public static final SheetKind RECORDER =
            new SheetKind("measurement", "Recorder sheet", "recorder", "How it writes", "");

    /** The noun at the beginning of a line. */
    public String title() {
        return Count.capital(noun);
    }
}
