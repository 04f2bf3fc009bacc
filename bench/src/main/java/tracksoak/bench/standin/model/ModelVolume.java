package tracksoak.bench.standin.model;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import tracksoak.bench.standin.VirtualStandIn;
import tracksoak.bench.standin.trace.Asked;

/**
 * A small FAT32 or exFAT on a stand-in on virtual time, of which files only ever grow. Sources as those of the volume's reader. Its tables
 * are written while it is recorded to, as requests whose bytes nobody looks at; their true bytes come at the end. Used by one
 * thread.
 */
final class ModelVolume {

    private static final int SECTOR = 512;
    private static final long START = 1 << 20;
    private static final int FIRST = 2;
    private static final int ENTRY = 32;

    private final VirtualStandIn drive;
    private final boolean exfat;
    private final int clusterBytes;
    private final long tableAt;
    private final int tableBytes;
    private final long heapAt;
    private final int clusters;
    private final int rootCluster;
    private final List<Integer> next = new ArrayList<>();
    private final List<ModelFile> files = new ArrayList<>();
    private long lastDoneNs;

    /** A file: its clusters in order. */
    static final class ModelFile {
        private final String name;
        private final int index;
        private final List<Integer> clusters = new ArrayList<>();
        private long bytes;

        ModelFile(String name, int index) {
            this.name = name;
            this.index = index;
        }

        long bytes() {
            return bytes;
        }
    }

    ModelVolume(VirtualStandIn drive, long driveBytes, String fileSystem, int clusterBytes) {
        this.drive = drive;
        this.exfat = fileSystem.equals("exfat");
        this.clusterBytes = clusterBytes;
        long room = driveBytes - START;
        clusters = Math.toIntExact(room / (clusterBytes + 8L) - 200);
        tableAt = START + 32 * SECTOR;
        tableBytes = (int) roundUp((clusters + 2L) * 4, 4096);
        heapAt = roundUp(tableAt + tableBytes * (exfat ? 1L : 2L), 4096);
        int bitmapClusters = exfat ? (int) roundUp((clusters + 7) / 8, clusterBytes) / clusterBytes : 0;
        rootCluster = FIRST + bitmapClusters;
        for (int i = 0; i < FIRST + bitmapClusters + 1; i++) {
            next.add(i + 1);
        }
        format();
    }

    private static long roundUp(long value, long unit) {
        return (value + unit - 1) / unit * unit;
    }

    private void format() {
        ByteBuffer table = ByteBuffer.allocate(SECTOR).order(ByteOrder.LITTLE_ENDIAN);
        table.put(446 + 4, (byte) (exfat ? 0x07 : 0x0C));
        table.putInt(446 + 8, (int) (START / SECTOR));
        table.putInt(446 + 12, (int) ((heapAt - START + (long) clusters * clusterBytes) / SECTOR));
        table.putShort(510, (short) 0xAA55);
        put(0, table);
        ByteBuffer boot = ByteBuffer.allocate(SECTOR).order(ByteOrder.LITTLE_ENDIAN);
        boot.put(0, (byte) 0xEB).put(1, (byte) (exfat ? 0x76 : 0x58)).put(2, (byte) 0x90);
        boot.putShort(510, (short) 0xAA55);
        if (exfat) {
            boot.put(3, "EXFAT   ".getBytes(StandardCharsets.US_ASCII));
            boot.putLong(72, (heapAt - START + (long) clusters * clusterBytes) / SECTOR);
            boot.putInt(80, (int) ((tableAt - START) / SECTOR)).putInt(84, tableBytes / SECTOR);
            boot.putInt(88, (int) ((heapAt - START) / SECTOR))
                    .putInt(92, clusters)
                    .putInt(96, rootCluster);
            boot.put(108, (byte) 9).put(109, (byte) Integer.numberOfTrailingZeros(clusterBytes / SECTOR));
            boot.put(110, (byte) 1);
        } else {
            boot.putShort(11, (short) SECTOR)
                    .put(13, (byte) (clusterBytes / SECTOR))
                    .putShort(14, (short) 32);
            boot.put(16, (byte) 2).putInt(32, (int) ((heapAt - START + (long) clusters * clusterBytes) / SECTOR));
            boot.putInt(36, (int) ((heapAt - tableAt) / 2 / SECTOR))
                    .putInt(44, rootCluster)
                    .put(66, (byte) 0x29);
        }
        put(START, boot);
    }

    private void put(long at, ByteBuffer bytes) {
        byte[] all = new byte[bytes.capacity()];
        bytes.get(0, all);
        lastDoneNs = drive.ask(Asked.WRITE, at, all.length, all);
    }

    ModelFile create(String name) {
        ModelFile file = new ModelFile(name, files.size());
        files.add(file);
        return file;
    }

    /**
     * Writes at the end of a file.
     *
     * @param advance space it is given at once
     * @param audio what is written; null where nobody looks at it
     * @return when it is done
     */
    long append(ModelFile file, int bytes, long advance, byte @Nullable [] audio) {
        long needed = roundUp(file.bytes + bytes, clusterBytes) / clusterBytes;
        boolean grown = false;
        while (file.clusters.size() < needed) {
            grown = true;
            int count = (int) Math.max(1, advance / clusterBytes);
            for (int i = 0; i < count; i++) {
                take(file);
            }
        }
        long done = pieces(file, file.bytes, bytes, audio);
        file.bytes += bytes;
        if (grown) {
            int last = file.clusters.get(file.clusters.size() - 1);
            done = drive.ask(Asked.WRITE, tableAt + last * 4L / SECTOR * SECTOR, SECTOR, null);
        }
        return done;
    }

    private void take(ModelFile file) {
        int cluster = next.size();
        next.add(-1);
        if (!file.clusters.isEmpty()) {
            next.set(file.clusters.get(file.clusters.size() - 1), cluster);
        }
        file.clusters.add(cluster);
    }

    private long pieces(ModelFile file, long from, int bytes, byte @Nullable [] audio) {
        long at = from;
        long end = from + bytes;
        long done = lastDoneNs;
        while (at < end) {
            int index = (int) (at / clusterBytes);
            long stop = Math.min(end, (index + 1L) * clusterBytes);
            while (stop < end
                    && file.clusters.get((int) (stop / clusterBytes))
                            == file.clusters.get(index) + stop / clusterBytes - index) {
                stop = Math.min(end, stop + clusterBytes);
            }
            byte[] piece = audio == null ? null : Arrays.copyOfRange(audio, (int) (at - from), (int) (stop - from));
            done = drive.ask(Asked.WRITE, byteOf(file.clusters.get(index)) + at % clusterBytes, stop - at, piece);
            at = stop;
        }
        return done;
    }

    private long byteOf(int cluster) {
        return heapAt + (cluster - FIRST) * (long) clusterBytes;
    }

    /** Writes the first sector of a file again. */
    long header(ModelFile file, byte[] header) {
        ByteBuffer sector = ByteBuffer.allocate(SECTOR).put(header);
        return drive.ask(Asked.WRITE, byteOf(file.clusters.get(0)), SECTOR, sector.array());
    }

    /** Writes a file's entry in its folder, with bytes that are not yet true. */
    long entry(ModelFile file) {
        return drive.ask(
                Asked.WRITE, byteOf(rootCluster) + file.index * (exfat ? 96L : 32L) / SECTOR * SECTOR, SECTOR, null);
    }

    /** Lets go of the space behind the end of a file. */
    void trim(ModelFile file) {
        int needed = (int) (roundUp(file.bytes, clusterBytes) / clusterBytes);
        while (file.clusters.size() > Math.max(1, needed)) {
            next.set(file.clusters.remove(file.clusters.size() - 1), 0);
        }
        if (!file.clusters.isEmpty()) {
            next.set(file.clusters.get(file.clusters.size() - 1), -1);
        }
    }

    /** Writes the tables and the folder as they are. */
    long finish() {
        ByteBuffer folder = ByteBuffer.allocate((int) roundUp(64 + files.size() * 96L + ENTRY, clusterBytes))
                .order(ByteOrder.LITTLE_ENDIAN);
        int extra = folder.capacity() / clusterBytes;
        next.set(rootCluster, -1);
        int last = rootCluster;
        List<Integer> folderClusters = new ArrayList<>(List.of(rootCluster));
        while (folderClusters.size() < extra) {
            next.set(last, next.size());
            last = next.size();
            folderClusters.add(last);
            next.add(-1);
        }
        if (exfat) {
            folder.put((byte) 0x81).put(new byte[19]).putInt(FIRST).putLong((clusters + 7) / 8);
            next.set(rootCluster - 1, -1);
        }
        for (ModelFile file : files) {
            if (exfat) {
                exfatEntry(folder, file);
            } else {
                fatEntry(folder, file);
            }
        }
        for (int i = 0; i < folderClusters.size(); i++) {
            byte[] part = new byte[clusterBytes];
            folder.get(i * clusterBytes, part);
            put(byteOf(folderClusters.get(i)), ByteBuffer.wrap(part));
        }
        ByteBuffer table =
                ByteBuffer.allocate((int) roundUp(next.size() * 4L, SECTOR)).order(ByteOrder.LITTLE_ENDIAN);
        for (int cluster = 0; cluster < next.size(); cluster++) {
            int value = next.get(cluster);
            table.putInt(cluster < FIRST ? (exfat ? -8 : 0x0FFF_FFF8) : exfat ? value : value & 0x0FFF_FFFF);
        }
        table.putInt(4, exfat ? -1 : 0x0FFF_FFFF);
        put(tableAt, table);
        if (!exfat) {
            put(tableAt + (heapAt - tableAt) / 2 / SECTOR * SECTOR, table);
        }
        return lastDoneNs;
    }

    private static void fatEntry(ByteBuffer folder, ModelFile file) {
        int at = folder.position();
        folder.put(String.format(Locale.ROOT, "%-8.8sWAV", file.name).getBytes(StandardCharsets.US_ASCII));
        folder.put((byte) 0x20);
        int first = file.clusters.isEmpty() ? 0 : file.clusters.get(0);
        folder.putShort(at + 20, (short) (first >> 16)).putShort(at + 26, (short) first);
        folder.putInt(at + 28, (int) file.bytes);
        folder.position(at + ENTRY);
    }

    private static void exfatEntry(ByteBuffer folder, ModelFile file) {
        int at = folder.position();
        byte[] name = (file.name + ".WAV").getBytes(StandardCharsets.UTF_16LE);
        folder.put((byte) 0x85).put((byte) 2).putShort((short) 0).putShort((short) 0x20);
        folder.position(at + ENTRY);
        folder.put((byte) 0xC0).put((byte) 1).put((byte) 0).put((byte) (name.length / 2));
        folder.putLong(at + ENTRY + 8, file.bytes)
                .putInt(at + ENTRY + 20, file.clusters.isEmpty() ? 0 : file.clusters.get(0));
        folder.putLong(at + ENTRY + 24, file.bytes);
        folder.position(at + 2 * ENTRY);
        folder.put((byte) 0xC1).put((byte) 0).put(name);
        int sum = 0;
        for (int i = 0; i < 3 * ENTRY; i++) {
            if (i != 2 && i != 3) {
                sum = ((sum & 1) << 15) + (sum >> 1) + (folder.get(at + i) & 0xFF) & 0xFFFF;
            }
        }
        folder.putShort(at + 2, (short) sum);
        folder.position(at + 3 * ENTRY);
    }
}
