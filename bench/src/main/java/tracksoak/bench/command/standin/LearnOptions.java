package tracksoak.bench.command.standin;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.job.Rooms;
import tracksoak.bench.standin.learn.BufferFound;
import tracksoak.bench.standin.learn.Comparison;
import tracksoak.bench.standin.learn.LearnedSession;
import tracksoak.bench.standin.learn.Pattern;
import tracksoak.profiles.Session;
import tracksoak.profiles.SessionCatalog;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** The session file and the page that are made of what was learnt. */
final class LearnOptions {

    private static final String LIKE = "band-32";

    @Option(
            names = "--session-out",
            paramLabel = "FILE",
            description = "Also write the session that follows: a new file. What nothing shows is marked as a guess.")
    @Nullable
    Path sessionOut;

    @Option(
            names = "--page",
            paramLabel = "FILE",
            description = "Also write a page with the pattern drawn: time across, files up.")
    @Nullable
    Path page;

    @Option(
            names = "--like",
            paramLabel = "SESSION",
            defaultValue = LIKE,
            description = "Take from this session what nothing shows, margins above all: ${DEFAULT-VALUE}.")
    String like = LIKE;

    @Option(
            names = "--against",
            paramLabel = "TRACE IMAGE",
            arity = "2",
            hideParamSyntax = true,
            description =
                    "Also list what differs from another recording on a stand-in: of the same session as qualify "
                            + "writes it, or of the same recorder with half the tracks, which shows whether they share one buffer.")
    List<Path> against = List.of();

    /** Writes it where one was asked for. */
    void write(
            Pattern pattern,
            @Nullable BufferFound buffer,
            @Nullable Comparison compared,
            Rooms rooms,
            Console console) {
        Path sheet = page;
        if (sheet != null) {
            RecorderSheets.save(sheet, pattern, buffer, compared);
            console.say("the page is " + Inert.quoted(sheet));
        }
        Path file = sessionOut;
        if (file == null) {
            return;
        }
        Session from = SessionCatalog.of(rooms.sessionsFolder()).find(like);
        String text = LearnedSession.text(pattern, buffer, from, name(file));
        try {
            if (!AtomicFile.create(file, text.getBytes(StandardCharsets.UTF_8))) {
                throw Problem.askedWrong(
                        Inert.quoted(file) + " is there already; it is never written over",
                        "name a new file with --session-out");
            }
        } catch (IOException refused) {
            throw Problem.cannot(
                    "the session cannot be written to " + Inert.quoted(file) + " (" + Problem.reason(refused) + ")",
                    "name another file with --session-out");
        }
        console.say("the session is in " + Inert.quoted(file) + "; check it with: tracksoak sessions check FILE");
    }

    private static String name(Path file) {
        Path last = file.getFileName();
        String name = (last == null ? "" : last.toString())
                .replaceAll("\\.toml$", "")
                .toLowerCase(Locale.ROOT)
                .replaceAll("[^a-z0-9]+", "-")
                .replaceAll("^-|-$", "");
        return name.isEmpty() || name.length() > 48 ? "learnt" : name;
    }
}
