package tracksoak.bench.stream;

/**
 * The room one stream may take on the drive: so many files of such a size at once. Once they are full its oldest file is
 * deleted before the next is begun.
 *
 * @param fileBytes largest file, header included, in bytes
 * @param files most files of the stream on the drive at once, at least 2
 */
public record Allotment(long fileBytes, int files) {

    /** As much as the stream likes. */
    public static final Allotment ENDLESS = new Allotment(Long.MAX_VALUE, Integer.MAX_VALUE);

    /** The room is cut into at least so many files, so that little is lost when one of them is deleted. */
    private static final int LEAST_FILES = 4;

    /**
     * Cuts the room of one stream into files.
     *
     * @param roomBytes of the stream
     * @param fileLimitBytes largest file the session allows, in bytes
     * @param alignment unit of what is written, in bytes
     * @throws IllegalArgumentException if the room holds less than {@value #LEAST_FILES} files of two blocks each
     */
    public static Allotment of(long roomBytes, long fileLimitBytes, int alignment) {
        long file = fileBytes(roomBytes, fileLimitBytes, alignment);
        if (file < 2L * alignment) {
            throw new IllegalArgumentException("a room of " + roomBytes + " B is too small for a stream");
        }
        return new Allotment(file, (int) Math.min(Integer.MAX_VALUE, roomBytes / file));
    }

    /** Size of the files that the room of one stream is cut into, header included, in bytes; in whole blocks. */
    public static long fileBytes(long roomBytes, long fileLimitBytes, int alignment) {
        return Math.min(fileLimitBytes, roomBytes / LEAST_FILES) / alignment * alignment;
    }
}
