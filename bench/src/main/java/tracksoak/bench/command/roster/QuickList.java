package tracksoak.bench.command.roster;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.command.session.SessionChoice;
import tracksoak.bench.job.Rooms;

/**
 * The list as it is asked for most, read without the command line's library: to set that up takes as long as to read a roster of thousands of drives.
 * What it does not know for certain it leaves to the library; a test holds both to the same.
 */
public final class QuickList {

    private QuickList() {}

    /** The command, if these words ask for nothing but what is known here. */
    public static Optional<RosterListCommand> read(Console console, Rooms rooms, List<String> words) {
        if (words.size() < 2 || !words.subList(0, 2).equals(List.of("roster", "list"))) {
            return Optional.empty();
        }
        RosterListCommand list = new RosterListCommand(console, rooms);
        Set<String> given = new HashSet<>();
        for (int at = 2; at < words.size(); at++) {
            String option = words.get(at);
            boolean flag = option.equals("--json") || option.equals("--csv");
            String value = flag || at + 1 == words.size() ? "" : words.get(++at);
            if (!given.add(option)
                    || (!flag && (value.isEmpty() || value.startsWith("-")))
                    || !set(list, option, value)) {
                return Optional.empty();
            }
        }
        return Optional.of(list);
    }

    private static boolean set(RosterListCommand list, String option, String value) {
        switch (option) {
            case "--json" -> list.json.asked = true;
            case "--csv" -> list.csv = true;
            case "--session" -> list.choice = SessionChoice.named(value);
            case "--tonight" -> list.tonight = value;
            case "--roster" -> list.rosterOption.place = value;
            default -> {
                return false;
            }
        }
        return true;
    }
}
