package tracksoak.profiles;

/**
 * Room a session takes on one file system.
 *
 * @param files how many files
 * @param fileBytes size of the files as a listing shows it, in bytes
 * @param allocatedBytes the same rounded up to whole clusters, in bytes
 * @param directoryBytes room for the folder that lists them, in bytes
 * @param aheadBytes most room that the open files are given ahead of what is written, in bytes
 * @param shape the file system
 */
public record SessionRoom(
        long files, long fileBytes, long allocatedBytes, long directoryBytes, long aheadBytes, FileSystemShape shape) {

    /** Free room that must be there before, in bytes. */
    public long totalBytes() {
        return allocatedBytes + directoryBytes + aheadBytes;
    }

    /** False where the file system's folders cannot list so many files. */
    public boolean fitsOneFolder() {
        return shape.fitsOneFolder(files);
    }

    /** True where the figures follow from the file system's published layout, false where the folder is estimated. */
    public boolean exact() {
        return shape.directory() != FileSystemShape.Directory.ESTIMATE;
    }
}
