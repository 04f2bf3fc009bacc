package tracksoak.bench.rig;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import tracksoak.bench.command.ReadyProgram;

/**
 * A small system on an emulated computer: a kernel with FAT, exFAT and USB drivers that this machine may lack, and this
 * machine's files, changeable there without being changed here. Its sense of time is poor, so nothing about time is shown
 * there. {@link #close} ends it, and so does the end of this process.
 */
final class Guest implements AutoCloseable {

    private static final Path MADE = Path.of("target", "usb-guest");
    private static final Path SOURCES = Path.of("src", "test", "usb");

    private static final long BOOT_LIMIT_MS = 180_000;

    private final Path folder;
    private final Process emulator;
    private final Monitor monitor;
    private final Thread atExit;
    private final Set<Stick> plugged = new LinkedHashSet<>();
    private int scripts;

    private Guest(Path folder, Process emulator, Monitor monitor, Thread atExit) {
        this.folder = folder;
        this.emulator = emulator;
        this.monitor = monitor;
        this.atExit = atExit;
    }

    /** What this machine lacks for it. */
    static List<String> missing() {
        List<String> missing = new ArrayList<>();
        if (!System.getProperty("os.name").equals("Linux")
                || !System.getProperty("os.arch").equals("amd64")) {
            missing.add("Linux on x86-64");
        }
        Stream.of("qemu-system-x86_64", "mkfs.exfat", "mkfs.vfat")
                .filter(command -> RigCondition.find(command).isEmpty())
                .forEach(command -> missing.add("command " + command));
        if (!Files.exists(MADE.resolve("kernel"))) {
            missing.add("bench/" + MADE + " (bench/src/test/usb/make-guest makes it)");
        }
        return missing;
    }

    /** Boots it with everything of its own in {@code folder}. */
    static Guest boot(Path folder) {
        try {
            Path share = Files.createDirectory(folder.resolve("share"));
            copy(ReadyProgram.folder(), Files.createDirectory(share.resolve("classes")));
            Files.copy(SOURCES.resolve("functions"), share.resolve("functions"));
            Process emulator = start(folder);
            Thread atExit = new Thread(emulator::destroyForcibly, "guest take-down");
            Runtime.getRuntime().addShutdownHook(atExit);
            Path up = share.resolve("up");
            if (!Host.await(BOOT_LIMIT_MS, () -> Files.exists(up) || !emulator.isAlive()) || !emulator.isAlive()) {
                emulator.destroyForcibly();
                throw new IllegalStateException("the guest does not boot: " + Host.text(folder.resolve("emulator.out"))
                        + Host.text(folder.resolve("console")));
            }
            Guest guest = new Guest(folder, emulator, new Monitor(folder.resolve("monitor")), atExit);
            guest.start("mkdir \"$ASKED\" && program tracksoak.bench.command.main.CommandsInTurn \"$ASKED\"");
            return guest;
        } catch (IOException e) {
            throw new UncheckedIOException("cannot boot a guest", e);
        }
    }

    private static Process start(Path folder) throws IOException {
        String shared = ",security_model=none,path=";
        return new ProcessBuilder(
                        // behind everything else, so that it may run beside real devices
                        "nice",
                        "-n",
                        "19",
                        "qemu-system-x86_64",
                        // without the host's help, for not every machine may give it
                        "-machine",
                        "q35",
                        "-accel",
                        "tcg,thread=multi",
                        "-cpu",
                        "max",
                        "-smp",
                        "2",
                        "-m",
                        "1500",
                        "-nodefaults",
                        "-nographic",
                        "-no-reboot",
                        "-serial",
                        "file:" + folder.resolve("console"),
                        "-kernel",
                        MADE.resolve("kernel").toString(),
                        "-initrd",
                        MADE.resolve("initrd").toString(),
                        "-append",
                        "console=ttyS0 loglevel=4 mitigations=off tsc=reliable panic=-1 rdinit=/init",
                        "-virtfs",
                        "local,readonly=on,multidevs=remap,mount_tag=host" + shared + "/",
                        "-virtfs",
                        "local,mount_tag=share" + shared + folder.resolve("share"),
                        "-device",
                        "qemu-xhci,id=usb",
                        "-qmp",
                        "unix:" + folder.resolve("monitor") + ",server=on,wait=off")
                .redirectErrorStream(true)
                .redirectInput(Path.of("/dev/null").toFile())
                .redirectOutput(folder.resolve("emulator.out").toFile())
                .start();
    }

    /**
     * With their times: the archive of classes holds only for jars as it knows them. {@code init} lays them at the same place
     * there.
     */
    private static void copy(Path program, Path classes) throws IOException {
        try (DirectoryStream<Path> files = Files.newDirectoryStream(program, Files::isRegularFile)) {
            for (Path file : files) {
                Files.copy(file, classes.resolve(file.getFileName()), StandardCopyOption.COPY_ATTRIBUTES);
            }
        }
    }

    /** The folder that the guest has at {@code /tmp/share}. */
    Path share() {
        return folder.resolve("share");
    }

    /** Starts a shell script in the guest, which has the functions of {@code src/test/usb/functions}. */
    Script start(String script) {
        String name = "script-" + ++scripts;
        Path next = folder.resolve(name);
        Host.write(next, ". /tmp/share/functions\n" + script);
        try {
            Files.move(next, share().resolve(name + ".sh"), StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            throw new UncheckedIOException("cannot start a script", e);
        }
        return new Script(this, script, share().resolve(name + ".out"), share().resolve(name + ".code"));
    }

    /**
     * Runs a shell script to its end.
     *
     * @return what it printed, both streams
     * @throws AssertionError if it does not end with 0
     */
    String run(String script) {
        Script started = start(script);
        int code = started.await();
        if (code != 0) {
            throw new AssertionError("ended with " + code + ": " + started);
        }
        return started.output();
    }

    boolean alive() {
        return emulator.isAlive();
    }

    /** Plugs a stick in. */
    void plug(Stick stick) {
        plug(stick, Map.of("driver", "file", "filename", stick.image().toString(), "locking", "off"));
    }

    /** Plugs in a stick whose contents are a backend's. */
    void plug(Stick stick, Backend backend) {
        Map<String, String> server =
                Map.of("type", "unix", "path", backend.socket().toString());
        plug(stick, Map.of("driver", "nbd", "server", server));
    }

    private void plug(Stick stick, Map<String, ?> contents) {
        plugged.add(stick);
        monitor.ask(
                "blockdev-add",
                Map.of(
                        "driver",
                        "raw",
                        "node-name",
                        stick.node(),
                        "read-only",
                        stick.refusesWrites(),
                        "file",
                        contents,
                        "cache",
                        Map.of("no-flush", true)));
        monitor.ask(
                "device_add",
                Map.of(
                        "driver",
                        "usb-storage",
                        "id",
                        stick.serial(),
                        "serial",
                        stick.serial(),
                        "drive",
                        stick.node(),
                        "removable",
                        true,
                        "bus",
                        "usb.0",
                        "port",
                        Integer.toString(stick.port())));
    }

    /** Pulls it out: whatever is under way. */
    void pull(Stick stick) {
        monitor.ask("device_del", Map.of("id", stick.serial()));
        monitor.awaitDeleted(stick.serial());
        monitor.ask("blockdev-del", Map.of("node-name", stick.node()));
        plugged.remove(stick);
    }

    /** Unmounts and pulls whatever is plugged in, so that ports and places are free again. */
    void clear() {
        run("awk '$2 ~ \"^/tmp/stick/\" {print $2}' /proc/mounts | xargs -r umount -l; rm -rf /tmp/stick/*");
        List.copyOf(plugged).forEach(this::pull);
    }

    /** Bytes the stick has taken since it was plugged in. */
    long written(Stick stick) {
        for (JsonNode drive : monitor.ask("query-blockstats", Map.of())) {
            if (drive.path("node-name").asText().equals(stick.node())) {
                return drive.path("stats").path("wr_bytes").asLong();
            }
        }
        throw new IllegalStateException(stick.serial() + " is not plugged in");
    }

    @Override
    public void close() {
        monitor.close();
        emulator.destroyForcibly();
        try {
            if (!emulator.waitFor(20, TimeUnit.SECONDS)) {
                throw new IllegalStateException("the emulator does not end");
            }
            Runtime.getRuntime().removeShutdownHook(atExit);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        } catch (IllegalStateException e) {
            if (emulator.isAlive()) {
                throw e;
            }
            // the process is ending, and the hook with it
        }
    }

    /** A script that runs in the guest, or has run. */
    static final class Script {

        private static final long LIMIT_MS = 300_000;

        private final Guest guest;
        private final String text;
        private final Path out;
        private final Path code;

        private Script(Guest guest, String text, Path out, Path code) {
            this.guest = guest;
            this.text = text;
            this.out = out;
            this.code = code;
        }

        /** What it printed so far, both streams. */
        String output() {
            return Host.text(out);
        }

        boolean ended() {
            return Files.exists(code) || !guest.alive();
        }

        /** Waits until it has printed this. */
        void awaitOutput(String words) {
            if (!Host.await(LIMIT_MS, () -> output().contains(words) || ended()) || !output().contains(words)) {
                throw new AssertionError("never said \"" + words + "\": " + this);
            }
        }

        /** Waits for its end; the exit code. */
        int await() {
            if (!Host.await(LIMIT_MS, this::ended) || !Files.exists(code)) {
                throw new AssertionError("does not end: " + this);
            }
            return Integer.parseInt(Host.text(code));
        }

        @Override
        public String toString() {
            return text + "\n" + output() + "\n" + Host.text(guest.folder.resolve("console"));
        }
    }
}
