package tracksoak.bench.drive.system;

/**
 * One line of Linux's mount table.
 *
 * @param id number of the mount, unique while it lasts
 * @param device {@code major:minor}; a major of 0 is no block device
 * @param root folder of the file system that is mounted here, {@code /} unless bound or a subvolume
 * @param point where it is mounted
 * @param readOnly whether the mount or the file system refuses writes
 * @param type file system type as the kernel names it, {@code fuseblk.exfat} with its subtype
 * @param source what is mounted, for example {@code /dev/sdb1}
 * @param options those of the file system itself
 */
public record Mount(
        int id,
        String device,
        String root,
        String point,
        boolean readOnly,
        String type,
        String source,
        String options) {

    /** Whether the file system is served by a program, which may keep writes in memory whatever it is asked. */
    public boolean fuse() {
        return type.equals("fuse") || type.equals("fuseblk") || type.startsWith("fuse.") || type.startsWith("fuseblk.");
    }

    /** Whether {@code path}, absolute and resolved, lies at or under this mount's point. */
    boolean covers(String path) {
        return point.equals("/") || path.equals(point) || path.startsWith(point + "/");
    }
}
