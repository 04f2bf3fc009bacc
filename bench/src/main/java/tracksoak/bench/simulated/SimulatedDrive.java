package tracksoak.bench.simulated;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.NoSuchFileException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.TreeMap;
import tracksoak.bench.drive.io.Drive;
import tracksoak.bench.drive.io.DriveFile;
import tracksoak.bench.drive.system.NeverReturnedException;
import tracksoak.bench.simulated.Call.Kind;
import tracksoak.bench.simulated.medium.Space;
import tracksoak.bench.stream.Stamp;
import tracksoak.profiles.base.VirtualClock;
import tracksoak.report.record.facts.DriveFacts;
import tracksoak.report.record.facts.IoMode;

/**
 * A drive on virtual time: every call moves the clock on by the time the model's behaviours give it, and returns. The
 * same model and the same calls give the same times. Used by one thread.
 *
 * <p>It keeps no bodies. Of a write it notes the stamp of the first stamped block; the blocks after it are taken to count
 * up from there. What is read back has those stamps with a CRC field of 0, or all ones where a bit was flipped; the rest
 * of each block is left as it was in the caller's buffer. Blocks without a stamp are kept whole.
 */
public final class SimulatedDrive implements Drive {

    /** Block size in bytes. */
    static final int BLOCK = Stamp.BLOCK;

    private static final int MAGIC_AT = 28;
    private static final long FAT32_LIMIT = 0xffff_ffffL;

    private final DriveModel model;
    private final VirtualClock clock;
    private final long hangLimitNs;
    private final Effect[] effects;
    private final Effect[] liars;
    private final Space space;
    private final int blocksPerCluster;
    private boolean steered;
    private int aside;
    private final TreeMap<String, FileNode> folder = new TreeMap<>();
    private final List<FileNode> nodes = new ArrayList<>();
    private final Call call = new Call();
    private final BlockReader reader = new BlockReader(this);
    private long lastEndNs;
    private long readBytes;
    private boolean closed;
    private boolean hung;
    private long pullAtNs = Long.MAX_VALUE;

    /**
     * Plugs in a new drive.
     *
     * @param clock moved on by every call
     * @param hangLimitNs a call that takes longer never returns: it moves the clock on by this and throws {@link
     *     NeverReturnedException}, and so does every call after it; in ns
     */
    public SimulatedDrive(DriveModel model, VirtualClock clock, long hangLimitNs) {
        this.model = model;
        this.clock = clock;
        this.hangLimitNs = hangLimitNs;
        SplittableRandom random = new SplittableRandom(model.seed());
        effects = model.behaviours().stream()
                .map(behaviour -> behaviour.start(random.split()))
                .toArray(Effect[]::new);
        liars = List.of(effects).stream().filter(Effect::lies).toArray(Effect[]::new);
        blocksPerCluster = model.clusterBytes() / BLOCK;
        space = new Space(model.clusters(), model.usedClusters(), liars.length > 0);
        lastEndNs = clock.nanoTime();
        call.capacityBytes = model.capacityBytes();
    }

    /** The model the drive was made from. */
    public DriveModel model() {
        return model;
    }

    /** The drive as a computer would see it, with the free room it has now. */
    public DriveFacts facts() {
        return model.facts(usable());
    }

    /** Somebody will pull it out: the first call that would end after {@code atNs} on the clock fails, and all later ones. */
    public void pullAt(long atNs) {
        pullAtNs = atNs;
    }

    /**
     * The same drive after it was unplugged without warning and plugged in again. The model: names, sizes and data that the
     * drive's medium has are as they were, for the file system writes through; what waited in the drive's own volatile
     * memory is lost, data and sizes alike, so a file ends with its last block that reached the medium.
     */
    public SimulatedDrive pluggedInAgain() {
        pullAtNs = Long.MAX_VALUE;
        closed = false;
        hung = false;
        call.presence = Presence.PRESENT;
        for (Effect effect : effects) {
            effect.pluggedInAgain();
        }
        for (FileNode node : folder.values()) {
            int blocks = Math.toIntExact(node.sizeBytes / BLOCK);
            while (blocks > 0 && forgot(node.deviceBlock(blocks - 1, blocksPerCluster))) {
                blocks--;
            }
            node.sizeBytes = (long) blocks * BLOCK;
        }
        return this;
    }

    private boolean forgot(int block) {
        for (Effect effect : effects) {
            if (effect.forgot(block)) {
                return true;
            }
        }
        return false;
    }

    @Override
    public DriveFile create(String name) throws IOException {
        touch(true);
        plain(name);
        if (folder.containsKey(name)) {
            throw new FileAlreadyExistsException(name);
        }
        call.begin(Kind.CREATE, clock.nanoTime(), lastEndNs);
        perform();
        FileNode node = new FileNode(nodes.size(), name);
        nodes.add(node);
        folder.put(name, node);
        aside += steered ? 1 : 0;
        return new SimulatedFile(this, node, true);
    }

    @Override
    public DriveFile open(String name) throws IOException {
        touch(false);
        plain(name);
        FileNode node = existing(name);
        call.begin(Kind.OPEN, clock.nanoTime(), lastEndNs);
        perform();
        return new SimulatedFile(this, node, false);
    }

    @Override
    public List<String> list() throws IOException {
        touch(false);
        return List.copyOf(folder.keySet());
    }

    @Override
    public void delete(String name) throws IOException {
        touch(true);
        plain(name);
        FileNode node = existing(name);
        call.begin(Kind.DELETE, clock.nanoTime(), lastEndNs);
        perform();
        folder.remove(name);
        for (int i = 0; i < node.clusterCount; i++) {
            space.release(node.cluster(i));
        }
    }

    @Override
    public void syncFolder() throws IOException {
        touch(false);
        call.begin(Kind.SYNC_FOLDER, clock.nanoTime(), lastEndNs);
        perform();
    }

    @Override
    public long usableBytes() throws IOException {
        touch(false);
        return usable();
    }

    @Override
    public int alignmentBytes() {
        return BLOCK;
    }

    @Override
    public Spreading spreading() {
        return Spreading.STEERED;
    }

    @Override
    public int roomUnitBytes() {
        return model.clusterBytes();
    }

    /** What is laid there is so little that no behaviour is asked about it. */
    @Override
    public void steer(double share) {
        steered = share > 0;
        space.goOnAt(share);
    }

    @Override
    public IoMode ioMode() {
        return IoMode.SIMULATED;
    }

    @Override
    public String ioReason() {
        return "";
    }

    @Override
    public Optional<Counters> counters() {
        return call.presence == Presence.GONE
                ? Optional.empty()
                : Optional.of(new Counters(call.writtenBytes, readBytes));
    }

    @Override
    public Presence presence() {
        return call.presence;
    }

    @Override
    public boolean keepsBodies() {
        return false;
    }

    @Override
    public void forgetCached() {}

    @Override
    public void close() {
        closed = true;
    }

    void write(FileNode node, ByteBuffer source, long position) throws IOException {
        touch(true);
        int bytes = source.remaining();
        aligned(position, bytes);
        if (model.fileSystem().equals("fat32") && position + bytes > FAT32_LIMIT) {
            throw new IOException("file would grow to " + (position + bytes) + " bytes, FAT32 takes " + FAT32_LIMIT);
        }
        call.begin(Kind.WRITE, clock.nanoTime(), lastEndNs);
        grow(node, position + bytes);
        int at = (int) (position / BLOCK);
        int blocks = bytes / BLOCK;
        call.bytes = bytes;
        call.address = (long) node.deviceBlock(at, blocksPerCluster) * BLOCK;
        call.fragments = node.fragments;
        perform();
        note(node, source, at, blocks);
        if (liars.length > 0) {
            tellLiars(node, at, blocks);
        }
        call.writtenBytes += bytes;
        node.sizeBytes = Math.max(node.sizeBytes, position + bytes);
        source.position(source.limit());
    }

    /** The model: an entry in the directory and one per cluster, as a file system that keeps how far a file is valid. */
    boolean extend(FileNode node, long bytes) throws IOException {
        touch(true);
        long clusters = (bytes + model.clusterBytes() - 1) / model.clusterBytes() - node.clusterCount;
        if (clusters > space.free() || (model.fileSystem().equals("fat32") && bytes > FAT32_LIMIT)) {
            return false;
        }
        call.begin(Kind.EXTEND, clock.nanoTime(), lastEndNs);
        grow(node, bytes);
        call.fragments = node.fragments;
        perform();
        return true;
    }

    void trim(FileNode node, long bytes) throws IOException {
        touch(true);
        call.begin(Kind.FLUSH, clock.nanoTime(), lastEndNs);
        call.metadata = true;
        perform();
        int kept = Math.toIntExact((bytes + model.clusterBytes() - 1) / model.clusterBytes());
        while (node.clusterCount > kept) {
            space.release(node.removeLast());
        }
    }

    int read(FileNode node, ByteBuffer target, long position) throws IOException {
        touch(false);
        aligned(position, target.remaining());
        int bytes = (int) Math.min(target.remaining(), Math.max(0, node.sizeBytes - position));
        if (bytes == 0) {
            return 0;
        }
        int at = (int) (position / BLOCK);
        call.begin(Kind.READ, clock.nanoTime(), lastEndNs);
        call.bytes = bytes;
        call.address = (long) node.deviceBlock(at, blocksPerCluster) * BLOCK;
        perform();
        reader.read(node, at, target, bytes / BLOCK);
        readBytes += bytes;
        target.position(target.position() + bytes);
        return bytes;
    }

    void flush(boolean withMetadata) throws IOException {
        touch(false);
        call.begin(Kind.FLUSH, clock.nanoTime(), lastEndNs);
        call.metadata = withMetadata;
        perform();
    }

    void closeFile() throws IOException {
        if (closed || call.presence == Presence.GONE) {
            return;
        }
        touch(false);
        call.begin(Kind.CLOSE, clock.nanoTime(), lastEndNs);
        perform();
    }

    Effect[] liars() {
        return liars;
    }

    int blocksPerCluster() {
        return blocksPerCluster;
    }

    /** The file that owns, or last owned, device block {@code block}. */
    FileNode ownerOf(int block) {
        return nodes.get(space.ownerOf(block / blocksPerCluster));
    }

    /** Which block of its owner device block {@code block} is. */
    int placeOf(int block) {
        return space.placeOf(block / blocksPerCluster) * blocksPerCluster + block % blocksPerCluster;
    }

    private long usable() {
        return (long) space.free() * model.clusterBytes();
    }

    private void touch(boolean toChange) throws IOException {
        if (closed) {
            throw new IOException("the simulated drive is closed");
        }
        if (hung) {
            hang();
        }
        if (call.presence == Presence.GONE) {
            throw new IOException("the simulated drive is gone");
        }
        if (toChange && call.presence == Presence.READ_ONLY) {
            throw new IOException("the simulated drive is read-only");
        }
    }

    private void perform() throws IOException {
        if (steered && !call.never) {
            return;
        }
        call.files = folder.size() - aside;
        call.usedBytes = call.capacityBytes - usable();
        try {
            for (Effect effect : effects) {
                effect.shape(call);
            }
            if (clock.nanoTime() + call.serviceNs > pullAtNs) {
                long untilNs = Math.max(0, pullAtNs - clock.nanoTime());
                call.refuse(Presence.GONE, untilNs + Removal.ERROR_NS, "the simulated drive was pulled out");
            }
        } catch (IOException e) {
            pass();
            throw e;
        }
        pass();
    }

    private void pass() throws IOException {
        if (call.never || call.serviceNs > hangLimitNs) {
            hung = true;
            hang();
        }
        clock.advance(call.serviceNs);
        lastEndNs = clock.nanoTime();
    }

    private void hang() throws IOException {
        clock.advance(hangLimitNs);
        throw new NeverReturnedException("the simulated drive does not come back from a call");
    }

    private void grow(FileNode node, long toBytes) throws IOException {
        int needed = Math.toIntExact((toBytes + model.clusterBytes() - 1) / model.clusterBytes()) - node.clusterCount;
        if (needed > space.free()) {
            throw new IOException("no room left on the simulated drive");
        }
        for (int i = 0; i < needed; i++) {
            node.add(space.take(node.id, node.clusterCount));
        }
        call.newClusters = Math.max(0, needed);
    }

    private static void note(FileNode node, ByteBuffer source, int at, int blocks) {
        var order = source.order();
        Stamp.ordered(source);
        int from = source.position();
        int done = 0;
        while (done < blocks && source.getInt(from + done * BLOCK + MAGIC_AT) != Stamp.MAGIC) {
            byte[] kept = new byte[BLOCK];
            source.get(from + done * BLOCK, kept);
            node.extents.raw(at + done, kept);
            done++;
        }
        if (done < blocks) {
            int stamp = from + done * BLOCK;
            node.extents.stamped(
                    at + done,
                    blocks - done,
                    source.getLong(stamp + 8),
                    source.getInt(stamp + 4),
                    source.getInt(stamp + 24),
                    source.getLong(stamp + 16));
        }
        source.order(order);
    }

    private void tellLiars(FileNode node, int at, int blocks) {
        int done = 0;
        while (done < blocks) {
            int first = node.deviceBlock(at + done, blocksPerCluster);
            int piece = Math.min(blocks - done, blocksPerCluster - (at + done) % blocksPerCluster);
            for (Effect liar : liars) {
                liar.wrote(first, piece, done, blocks);
            }
            done += piece;
        }
    }

    private FileNode existing(String name) throws IOException {
        FileNode node = folder.get(name);
        if (node == null) {
            throw new NoSuchFileException(name);
        }
        return node;
    }

    private static void plain(String name) throws IOException {
        boolean odd = name.chars().anyMatch(c -> c == '/' || c == '\\' || c == ':' || c < ' ');
        if (odd || name.isEmpty() || name.equals(".") || name.equals("..")) {
            throw new IOException("\"" + name + "\" is no plain file name");
        }
    }

    private static void aligned(long position, int bytes) throws IOException {
        if (position < 0 || (position | bytes) % BLOCK != 0) {
            throw new IOException("position " + position + " and length " + bytes + " must be multiples of " + BLOCK);
        }
    }
}
