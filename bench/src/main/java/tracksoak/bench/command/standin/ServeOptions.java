package tracksoak.bench.command.standin;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.UnknownHostException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tracksoak.bench.command.console.Amounts;
import tracksoak.bench.command.console.Console;
import tracksoak.bench.simulated.DriveModel;
import tracksoak.bench.standin.Door;
import tracksoak.bench.standin.RequestWatch;
import tracksoak.bench.standin.SparseImage;
import tracksoak.bench.standin.StandIn;
import tracksoak.bench.standin.StandInListener;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;

/** What a stand-in is served from, and where. */
final class ServeOptions {

    private static final int MOST_TRACES = 1000;
    private static final int BLOCK = 512;

    @Parameters(
            paramLabel = "IMAGE",
            description =
                    "File on this computer that holds what is recorded. A new one needs --size; one that a stand-in made "
                            + "is used again.")
    @SuppressWarnings("NullAway.Init")
    Path image;

    @Option(
            names = "--size",
            paramLabel = "SIZE",
            converter = Amounts.Size.class,
            description = "Size of a new drive, such as 64GB. It takes room on this computer only as it is written.")
    @Nullable
    Long sizeBytes;

    @Option(
            names = "--listen",
            paramLabel = "ADDRESS:PORT",
            defaultValue = "127.0.0.1:10809",
            description =
                    "Where recorders reach it: ${DEFAULT-VALUE}, which is this computer alone. There is no password: give "
                            + "another address only on a network that is yours.")
    String listen = "127.0.0.1:10809";

    @Option(
            names = "--trace",
            paramLabel = "FILE",
            description = "New file for what the recorder asks for. Without it: beside the image.")
    @Nullable
    Path trace;

    /**
     * A stand-in of the image, which is made if it is not there: as large as was asked for, or as the model. Nothing is left behind where
     * it cannot be served.
     *
     * @param model what it behaves like; null for a plain good drive
     */
    StandIn open(
            InetSocketAddress at,
            Path tracePath,
            @Nullable DriveModel model,
            StandInListener listener,
            RequestWatch watch) {
        boolean there = Files.exists(image);
        SparseImage opened = there ? openThere() : null;
        long newBytes = there ? 0 : newBytes(model);
        Door door = null;
        try {
            door = Door.at(at);
            opened = opened == null ? SparseImage.create(image, newBytes) : opened;
            return new StandIn(opened, tracePath, model, door, listener, watch);
        } catch (Problem refused) {
            if (door != null) {
                door.close();
            }
            if (opened != null) {
                close(opened);
                if (!there) {
                    SparseImage.discard(image);
                }
            }
            throw refused;
        }
    }

    private static void close(SparseImage opened) {
        try {
            opened.close();
        } catch (IOException ignored) {
            // nothing was written to it
        }
    }

    private @Nullable Long wholeBlocks() {
        return sizeBytes == null ? null : (Long) (sizeBytes / BLOCK * BLOCK);
    }

    private long newBytes(@Nullable DriveModel model) {
        Long asked = wholeBlocks();
        if (asked == null && model == null) {
            throw Problem.askedWrong(
                    "There is no image " + Inert.quoted(image),
                    "give the size of a new one with --size, for example 64GB");
        }
        return asked != null ? asked : model == null ? 0 : model.capacityBytes();
    }

    private SparseImage openThere() {
        Long asked = wholeBlocks();
        SparseImage open = SparseImage.open(image);
        if (asked != null && asked != open.sizeBytes()) {
            close(open);
            throw Problem.askedWrong(
                    "The image " + Inert.quoted(image) + " is there and has " + open.sizeBytes() + " bytes, not "
                            + asked,
                    "leave out --size, or choose another name");
        }
        return open;
    }

    /** Where the trace goes: a name that is not taken. */
    Path trace() {
        Path given = trace;
        if (given != null) {
            return given;
        }
        for (int i = 1; i <= MOST_TRACES; i++) {
            Path free = image.resolveSibling(image.getFileName() + (i == 1 ? "" : "-" + i) + ".trace");
            if (!Files.exists(free)) {
                return free;
            }
        }
        throw Problem.askedWrong("There are " + MOST_TRACES + " traces beside the image", "move some away");
    }

    /** Where to listen. */
    InetSocketAddress address() {
        int colon = listen.lastIndexOf(':');
        String host = colon < 0 ? "" : listen.substring(0, colon).replaceAll("^\\[|]$", "");
        String port = listen.substring(colon + 1);
        boolean literal = host.matches("[0-9.]{7,15}") || (host.matches("[0-9a-fA-F:.]{2,45}") && host.contains(":"));
        if (!literal || !port.matches("[0-9]{1,5}") || Integer.parseInt(port) > 65_535) {
            throw Problem.askedWrong(
                    "--listen " + Inert.quoted(listen) + " is no IP address with a port",
                    "write it like 127.0.0.1:10809 or [::1]:10809");
        }
        try {
            return new InetSocketAddress(InetAddress.getByName(host), Integer.parseInt(port));
        } catch (UnknownHostException none) {
            throw Problem.askedWrong(
                    "--listen " + Inert.quoted(listen) + " is no IP address with a port",
                    "write it like 127.0.0.1:10809 or [::1]:10809");
        }
    }

    /** Says where it listens, and what to mind. */
    void say(Console console, InetSocketAddress at, int port, Path tracePath) {
        String host = at.getAddress().getHostAddress();
        String shown = host.contains(":") ? "[" + host + "]" : host;
        console.say("the drive is at nbd://" + shown + ":" + port + "  (Ctrl-C ends it)");
        console.say("its trace goes to " + Inert.quoted(tracePath));
        if (!at.getAddress().isLoopbackAddress()) {
            console.say("whoever reaches this address can read and write the drive: there is no password");
        }
    }
}
