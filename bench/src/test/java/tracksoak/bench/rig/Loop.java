package tracksoak.bench.rig;

import java.nio.file.Path;

/** A loop device, which makes a block device of a file. */
public final class Loop {

    private final String node;
    /** What the node is made of while it is this one: once let go, it may be another's. */
    private final String backing;

    private Loop(String node) {
        this.node = node;
        backing = Host.text(system("loop/backing_file"));
    }

    /**
     * Attaches {@code file}. Without direct I/O the loop's own cache would hide everything the file does.
     *
     * @throws IllegalStateException if the system refuses, or quietly goes without direct I/O
     */
    static Loop attach(Path file) {
        return attached("losetup", "-f", "--show", "--direct-io=on", file.toString());
    }

    /** Attaches a piece of {@code file}. */
    static Loop attach(Path file, long offset, long bytes) {
        return attached(
                "losetup",
                "-f",
                "--show",
                "--direct-io=on",
                "-o",
                "" + offset,
                "--sizelimit",
                "" + bytes,
                file.toString());
    }

    private static Loop attached(String... command) {
        String device = Host.run(command);
        Loop loop = new Loop(device.substring(device.lastIndexOf('/') + 1));
        if (!Host.text(loop.system("loop/dio")).equals("1")) {
            loop.detach();
            throw new IllegalStateException(device + " does not do direct I/O");
        }
        return loop;
    }

    /** Name of the device, for example {@code loop3}. */
    public String node() {
        return node;
    }

    /** The block device. */
    public Path device() {
        return Path.of("/dev", node);
    }

    /** Major and minor number, {@code 7:3}. */
    String numbers() {
        return Host.text(system("dev"));
    }

    /** Size as the system knows it, in bytes. */
    long bytes() {
        return Long.parseLong(Host.text(system("size"))) * 512;
    }

    /** Makes the system ask the file for its size again: 0 once the file is gone. */
    void askSizeAgain() {
        Host.attempt(5, "losetup", "-c", device().toString());
    }

    boolean attached() {
        return !backing.isEmpty() && Host.text(system("loop/backing_file")).startsWith(backing);
    }

    /** Lets go of the file; says whether the device was free within 5 s. */
    boolean detach() {
        if (attached()) {
            Host.attempt(5, "losetup", "-d", device().toString());
        }
        return Host.await(5_000, () -> !attached());
    }

    private Path system(String file) {
        return Path.of("/sys/block", node, file);
    }
}
