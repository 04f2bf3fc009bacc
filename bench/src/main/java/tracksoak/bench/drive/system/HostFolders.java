package tracksoak.bench.drive.system;

import java.nio.file.Path;
import java.util.Locale;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;

/**
 * Where things are kept on this computer, as its system wants them. None of the folders need exist.
 *
 * @param sessions the user's own session files
 * @param records run records and reports
 * @param cache what can be made again
 * @param state locks of runs that go on
 */
public record HostFolders(Path sessions, Path records, Path cache, Path state) {

    private static final String NAME = "tracksoak";

    /** The folders of this user on this computer. */
    public static HostFolders here() {
        return of(System.getProperty("os.name"), System::getenv, Path.of(System.getProperty("user.home")));
    }

    /**
     * The folders on a given system. Linux and others: XDG Base Directory Specification, which has relative paths ignored.
     *
     * @param os as in the system property {@code os.name}
     * @param environment value of a variable, null if it is not set
     * @param account home of the user's account, absolute; counts where no {@code HOME} is set
     */
    static HostFolders of(String os, UnaryOperator<@Nullable String> environment, Path account) {
        String system = os.toLowerCase(Locale.ROOT);
        Path home = system.startsWith("windows") ? account : absolute(environment, "HOME", account);
        if (system.startsWith("windows")) {
            Path base = absolute(
                            environment, "LOCALAPPDATA", home.resolve("AppData").resolve("Local"))
                    .resolve(NAME);
            return new HostFolders(
                    base.resolve("sessions"), base.resolve("records"), base.resolve("cache"), base.resolve("state"));
        }
        if (system.startsWith("mac")) {
            Path library = home.resolve("Library");
            Path base = library.resolve("Application Support").resolve(NAME);
            return new HostFolders(
                    base.resolve("sessions"),
                    base.resolve("records"),
                    library.resolve("Caches").resolve(NAME),
                    base.resolve("state"));
        }
        Path local = home.resolve(".local");
        return new HostFolders(
                absolute(environment, "XDG_CONFIG_HOME", home.resolve(".config"))
                        .resolve(NAME)
                        .resolve("sessions"),
                absolute(environment, "XDG_DATA_HOME", local.resolve("share"))
                        .resolve(NAME)
                        .resolve("records"),
                absolute(environment, "XDG_CACHE_HOME", home.resolve(".cache")).resolve(NAME),
                absolute(environment, "XDG_STATE_HOME", local.resolve("state")).resolve(NAME));
    }

    private static Path absolute(UnaryOperator<@Nullable String> environment, String variable, Path otherwise) {
        String value = environment.apply(variable);
        return value == null || value.isBlank() || !Path.of(value).isAbsolute() ? otherwise : Path.of(value);
    }
}
