package tracksoak.report.page.bench;

import java.util.List;
import tracksoak.report.page.view.Facts;
import tracksoak.report.page.view.Shown;
import tracksoak.report.roster.web.page.view.Frame;
import tracksoak.report.roster.web.page.view.Option;

/**
 * One session, and the form that makes another of it.
 *
 * @param demand what it asks of a drive; null for one that is not in order yet
 * @param test where a drive is tested for it, empty for one that is not there yet
 * @param errors what is wrong with what was filled in, in the sentences of a session file
 * @param fields of the form, in their order
 * @param groups of tracks, and of the mix, with at least one empty row each
 * @param from name of the session the form was made of
 * @param saved what became of it, empty where nothing did
 */
public record SessionView(
        Frame frame,
        Shown heading,
        @org.jspecify.annotations.Nullable Facts demand,
        String test,
        List<Shown> errors,
        List<Field> fields,
        List<Group> groups,
        String secret,
        String from,
        String saved) {

    /**
     * One value.
     *
     * @param name of the field
     * @param label for people
     * @param value as it was filled in
     * @param hint what is allowed
     * @param choices all there are, where there are few; else empty
     * @param first whether everyone has to look at it
     */
    public record Field(String name, String label, Shown value, String hint, List<Option> choices, boolean first) {}

    /** A row of three fields that say what some tracks are like. */
    public record Group(String legend, Field count, Field rate, Field word) {

        /** Whether everyone has to look at it. */
        public boolean first() {
            return count.first();
        }
    }
}
