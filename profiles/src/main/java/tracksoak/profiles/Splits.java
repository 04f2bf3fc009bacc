package tracksoak.profiles;

/**
 * How one stream is cut into files under a size limit.
 *
 * @param dataPerFileBytes bytes of samples in a full file
 * @param files how many files, at least 1
 * @param lastFileDataBytes bytes of samples in the last file
 */
public record Splits(long dataPerFileBytes, long files, long lastFileDataBytes) {

    /**
     * Cuts a stream.
     *
     * @param frameBytes bytes of one sample of every track in the file
     * @param dataBytes bytes of samples in all, whole frames
     * @param limit what one file may hold
     * @throws IllegalArgumentException where a file could not hold a single frame
     */
    public static Splits of(int frameBytes, long dataBytes, FileLimit limit) {
        long perFile = limit.maxDataBytes(frameBytes);
        if (perFile <= 0) {
            throw new IllegalArgumentException(
                    "a file limit of " + limit.maxFileBytes() + " B holds no frame of " + frameBytes + " B");
        }
        long files = Math.max(1, (dataBytes + perFile - 1) / perFile);
        long last = dataBytes - (files - 1) * perFile;
        return new Splits(perFile, files, last);
    }

    /** Size of all files with their headers, in bytes. */
    public long fileBytes() {
        return (files - 1) * FileLimit.fileBytes(dataPerFileBytes) + FileLimit.fileBytes(lastFileDataBytes);
    }
}
