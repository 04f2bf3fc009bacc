package tracksoak.bench.command.session;

import java.util.Arrays;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import tracksoak.profiles.Key;
import tracksoak.profiles.ProfileError;

/** Names, in messages, the option that was typed in place of the key it stands for in a session file. */
final class OptionNames {

    private static final Pattern GROUP_KEY = Pattern.compile("(?:tracks|mix)\\[\\d+]\\.(\\w+)");
    private static final String BY_EXAMPLE = "write for example ";

    private static final Map<String, String> OPTIONS = Arrays.stream(Key.values())
            .filter(key -> key.option().isPresent())
            .collect(Collectors.toUnmodifiableMap(
                    Key::path, key -> key.option().orElseThrow().name()));

    private OptionNames() {}

    /** What stands before the value: {@code --tracks = }, or nothing for the session's name. */
    static String named(String key) {
        return key.equals("session") ? "" : of(key) + " = ";
    }

    /** What to do; an example in the form of a session file would not help somebody who typed an option. */
    static String remedy(ProfileError problem) {
        return problem.remedy().startsWith(BY_EXAMPLE)
                ? "give " + of(problem.key()) + " another value"
                : problem.remedy();
    }

    /** The option for a key; the key itself where there is none. */
    static String of(String key) {
        Matcher group = GROUP_KEY.matcher(key);
        return OPTIONS.getOrDefault(group.matches() ? group.group(1) : key, key);
    }
}
