package tracksoak.bench.command.bench;

import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.Socket;
import java.net.URI;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.AtomicFile;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.OwnersOnly;
import tracksoak.profiles.base.Problem;

/**
 * The way into the one bench that runs for this user. The address with its key lies in a file that only the user can read; a browser is
 * sent to a page of theirs that leads on, because everyone on this computer can read command lines.
 */
final class BenchDoor implements AutoCloseable {

    private static final String ADDRESS = "bench-address";
    private static final int ANSWER_MS = 1000;
    private static final String PAGE = "bench.html";

    private final Path folder;
    private final @Nullable FileChannel held;

    private BenchDoor(Path folder, @Nullable FileChannel held) {
        this.folder = folder;
        this.held = held;
    }

    /** @param stateFolder of this user */
    static BenchDoor at(Path stateFolder) {
        Path folder = stateFolder.resolve("bench");
        try {
            FileChannel channel = OwnersOnly.lockFile(folder.resolve("lock"));
            FileLock lock = channel.tryLock();
            if (lock == null) {
                channel.close();
                return new BenchDoor(folder, null);
            }
            // one that was killed could not take its address with it
            Files.deleteIfExists(folder.resolve(ADDRESS));
            Files.deleteIfExists(folder.resolve(PAGE));
            return new BenchDoor(folder, channel);
        } catch (IOException e) {
            throw Problem.cannot(
                    "the bench cannot note where it is (" + Problem.reason(e) + ")",
                    "see that " + Inert.quoted(folder) + " may be written");
        }
    }

    /** Whether another bench of this user runs. */
    boolean taken() {
        return held == null;
    }

    /** Where the bench is, with the key; empty where it has not said so yet. */
    Optional<String> address() {
        try {
            return Optional.of(Files.readString(folder.resolve(ADDRESS), StandardCharsets.UTF_8)
                    .strip());
        } catch (IOException notYet) {
            return Optional.empty();
        }
    }

    /** Whether something listens at an address of this computer: a bench that was killed leaves its address behind. */
    static boolean answers(String address) {
        URI where = URI.create(address);
        try (Socket socket = new Socket()) {
            socket.connect(new InetSocketAddress(where.getHost(), where.getPort()), ANSWER_MS);
            return true;
        } catch (IOException | IllegalArgumentException nobody) {
            return false;
        }
    }

    /** Notes where it is, and makes the page that leads there. */
    void lead(String address) {
        try {
            AtomicFile.write(folder.resolve(ADDRESS), address.getBytes(StandardCharsets.UTF_8));
            String page = "<!DOCTYPE html><html lang=\"en\"><meta charset=\"utf-8\"><meta name=\"referrer\""
                    + " content=\"no-referrer\"><title>Tracksoak</title><meta http-equiv=\"refresh\""
                    + " content=\"0;url=" + address + "\">"
                    + "<p><a href=\"" + address + "\">To the bench</a></p></html>";
            AtomicFile.write(folder.resolve(PAGE), page.getBytes(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw Problem.cannot(
                    "the bench cannot note where it is (" + Problem.reason(e) + ")",
                    "see that " + Inert.quoted(folder) + " may be written");
        }
    }

    /** The page that leads to the bench. */
    URI page() {
        return folder.resolve(PAGE).toUri();
    }

    @Override
    public void close() {
        if (held != null) {
            try {
                Files.deleteIfExists(folder.resolve(ADDRESS));
                Files.deleteIfExists(folder.resolve(PAGE));
                held.close();
            } catch (IOException gone) {
                return; // the lock goes with the process
            }
        }
    }
}
