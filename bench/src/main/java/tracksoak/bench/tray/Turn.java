package tracksoak.bench.tray;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.NanoClock;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.Waiter;

/**
 * A run's right to work: it has its links for itself from its beginning to its end, since a take must follow its fill at once. Held
 * by locks on files, which the system takes back from a process that dies. Runs whose links are not known work alone.
 */
public final class Turn implements AutoCloseable {

    private static final long LOOK_NS = 300_000_000;

    private final List<FileChannel> held = new ArrayList<>();

    private Turn() {}

    /**
     * What decides whose turn it is.
     *
     * @param stateFolder of this computer
     * @param links what the drive shares, null if not known
     * @param alone whether it must have the computer for itself
     * @param sideBySide most runs at once
     */
    public record Wish(Path stateFolder, @Nullable List<String> links, boolean alone, int sideBySide) {

        boolean all() {
            return alone || links == null;
        }
    }

    /** Runs that a computer carries at once: each has a thread that writes and one that watches the computer. */
    public static int sideBySide(int processors) {
        return Math.max(1, processors / 2);
    }

    /**
     * Waits for it.
     *
     * @param stop ends the waiting
     * @param waits told once each time something else is waited for
     * @return null if it was stopped
     */
    public static @Nullable Turn take(
            Wish wish, NanoClock clock, Waiter waiter, BooleanSupplier stop, Consumer<String> waits) {
        Path folder = wish.stateFolder().resolve("turns");
        Turn turn = new Turn();
        boolean mine = false;
        try {
            Files.createDirectories(folder);
            Patience patience = new Patience(clock, waiter, stop);
            mine = turn.all(wish, folder, patience, waits);
            return mine ? turn : null;
        } catch (IOException e) {
            throw Problem.cannot(
                    "it cannot be told whose turn it is (" + Problem.reason(e) + ")",
                    "see that " + Inert.quoted(folder) + " may be written");
        } finally {
            if (!mine) {
                turn.close();
            }
        }
    }

    private boolean all(Wish wish, Path folder, Patience patience, Consumer<String> waits) throws IOException {
        if (!lock(
                List.of(folder.resolve("computer")), !wish.all(), patience, () -> waits.accept("the runs before it"))) {
            return false;
        }
        List<String> links = wish.links();
        if (wish.all() || links == null) {
            return true;
        }
        for (String link : links) {
            Path file = folder.resolve("link-" + link.replaceAll("[^A-Za-z0-9.]", "-"));
            if (!lock(List.of(file), false, patience, () -> waits.accept("another drive on its link"))) {
                return false;
            }
        }
        List<Path> slots = new ArrayList<>();
        for (int i = 0; i < wish.sideBySide(); i++) {
            slots.add(folder.resolve("slot-" + i));
        }
        return lock(slots, false, patience, () -> waits.accept("a run to end: this computer carries no more at once"));
    }

    private record Patience(NanoClock clock, Waiter waiter, BooleanSupplier stop) {}

    /** Locks one of the files. */
    private boolean lock(List<Path> files, boolean shared, Patience patience, Runnable waits) throws IOException {
        boolean told = false;
        while (!patience.stop().getAsBoolean()) {
            for (Path file : files) {
                if (tried(file, shared)) {
                    return true;
                }
            }
            if (!told) {
                told = true;
                waits.run();
            }
            patience.waiter().waitUntil(patience.clock().nanoTime() + LOOK_NS);
        }
        return false;
    }

    private boolean tried(Path file, boolean shared) throws IOException {
        FileChannel channel =
                FileChannel.open(file, StandardOpenOption.READ, StandardOpenOption.WRITE, StandardOpenOption.CREATE);
        FileLock lock = null;
        try {
            lock = channel.tryLock(0, Long.MAX_VALUE, shared);
        } catch (OverlappingFileLockException ofThisProcess) {
            lock = null;
        } finally {
            if (lock == null) {
                channel.close();
            } else {
                held.add(channel);
            }
        }
        return lock != null;
    }

    @Override
    public void close() {
        for (FileChannel channel : held) {
            try {
                channel.close();
            } catch (IOException gone) {
                // the system takes the lock back when the process ends
            }
        }
        held.clear();
    }
}
