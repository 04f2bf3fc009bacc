package tracksoak.bench.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import tracksoak.profiles.base.Count;

/** Sentences meant for people who type, told to people who click. Stateless. */
final class Typed {

    private static final Pattern CLEAR = Pattern.compile("tracksoak clear (?!.*--keepsake)[^,;]+? --yes");
    private static final Pattern COMMAND = Pattern.compile("(?<![\\w/.-])tracksoak (?=[a-z])");
    private static final Pattern OPTION = Pattern.compile("(?<![\\w-])--[a-z][a-z-]*");

    private Typed() {}

    /** The same, with where it is done: an option that belongs to a session is a field of its form, all else is for a terminal. */
    static String placed(String sentence) {
        String here = CLEAR.matcher(sentence)
                .replaceAll("choose the drive under Test a drive and delete there what was left");
        String said = COMMAND.matcher(here).replaceAll("in a terminal, $0");
        if (!said.equals(sentence)) {
            return said;
        }
        List<String> fields = new ArrayList<>();
        boolean typed = false;
        for (String option :
                OPTION.matcher(sentence).results().map(found -> found.group()).toList()) {
            Optional<String> field = SessionForm.labelOf(option);
            field.ifPresent(label -> fields.add("\"" + label + "\""));
            typed |= field.isEmpty();
        }
        return sentence
                + (fields.isEmpty()
                        ? ""
                        : " Here: " + Count.list(fields) + " in the form of a session, under Sessions.")
                + (typed ? " What begins with -- is typed in a terminal, after tracksoak qualify." : "");
    }
}
