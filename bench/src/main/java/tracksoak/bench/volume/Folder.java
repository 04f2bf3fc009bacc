package tracksoak.bench.volume;

import java.io.IOException;
import java.util.List;

/** The entries of a folder, 32 bytes each, cluster by cluster. Confined to one thread. */
final class Folder {

    /** Length of an entry in bytes. */
    static final int ENTRY = 32;

    private static final int PIECE = 64 << 10;

    private final ByteSource source;
    private final List<Extent> extents;
    private int extent;
    private long at;
    private Bytes piece = new Bytes(new byte[0]);
    private int inPiece;
    private long pieceStart;

    Folder(ByteSource source, List<Extent> extents) {
        this.source = source;
        this.extents = extents;
    }

    /** Goes on to the next entry; false after the last. */
    boolean next() throws IOException {
        inPiece += ENTRY;
        if (inPiece + ENTRY <= piece.length()) {
            return true;
        }
        while (extent < extents.size() && at >= extents.get(extent).lengthBytes()) {
            extent++;
            at = 0;
        }
        if (extent == extents.size()) {
            return false;
        }
        Extent here = extents.get(extent);
        pieceStart = here.startByte() + at;
        piece = new Bytes(source.read(pieceStart, (int) Math.min(PIECE, here.lengthBytes() - at)));
        at += piece.length();
        inPiece = 0;
        return true;
    }

    /** Where on the device the entry begins. */
    long entryByte() {
        return pieceStart + inPiece;
    }

    int u8(int at) {
        return piece.u8(inPiece + at);
    }

    int u16(int at) {
        return piece.u16(inPiece + at);
    }

    long u32(int at) {
        return piece.u32(inPiece + at);
    }

    long u64(int at) {
        return piece.u64(inPiece + at);
    }

    String utf16(int at, int characters) {
        return piece.utf16(inPiece + at, characters);
    }
}
