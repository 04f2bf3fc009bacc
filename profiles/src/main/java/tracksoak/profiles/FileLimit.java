package tracksoak.profiles;

/**
 * A limit on the size of one WAVE file, whoever sets it: the file system, the file format or the recorder.
 *
 * @param maxFileBytes largest file in bytes
 */
public record FileLimit(long maxFileBytes) {
    /** Bytes in front of the samples of a plain WAVE file: RIFF, fmt and data heads. */
    public static final int HEADER_BYTES = 44;

    private static final long UNSIGNED_32 = 0xFFFF_FFFFL;

    /** Largest file on FAT32, 4 GiB − 1 B. Source: Microsoft's size-constraints table. */
    public static final FileLimit FAT32 = new FileLimit(UNSIGNED_32);

    /**
     * Largest WAVE file: the size field counts what follows its own 8 bytes. 8 bytes more than FAT32 takes. Source:
     * AES31-2 BWF-E amendment 2008.
     */
    public static final FileLimit RIFF = new FileLimit(UNSIGNED_32 + 8);

    public FileLimit {
        if (maxFileBytes <= HEADER_BYTES) {
            throw new IllegalArgumentException("a file of " + maxFileBytes + " B holds no samples");
        }
    }

    /** True where a file of this size is allowed. */
    public boolean allows(long fileBytes) {
        return fileBytes <= maxFileBytes;
    }

    /**
     * Most bytes of samples one file can hold.
     *
     * @param frameBytes bytes of one sample of every track in the file; only whole frames are stored
     * @return bytes, a multiple of {@code frameBytes}, 0 where not even one frame fits
     */
    public long maxDataBytes(int frameBytes) {
        long data = (maxFileBytes - HEADER_BYTES) / frameBytes * frameBytes;
        return data > 0 && !allows(fileBytes(data)) ? data - frameBytes : data;
    }

    /** Size of a WAVE file with so many bytes of samples: an odd count is padded by one byte. */
    public static long fileBytes(long dataBytes) {
        return HEADER_BYTES + dataBytes + (dataBytes & 1);
    }
}
