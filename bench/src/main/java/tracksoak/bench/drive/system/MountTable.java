package tracksoak.bench.drive.system;

import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/** Linux's mount table, in the form of {@code /proc/self/mountinfo} (format: proc(5)). */
public record MountTable(List<Mount> mounts) {

    public static final String FILE = "/proc/self/mountinfo";

    private static final Pattern DEVICE = Pattern.compile("\\d{1,7}:\\d{1,7}");

    public MountTable {
        mounts = List.copyOf(mounts);
    }

    /** The table of this process, empty where the system has none. */
    public static MountTable of(SystemFiles files) {
        String text = files.text(FILE);
        return text == null ? new MountTable(List.of()) : parse(text);
    }

    /** Reads the table; lines that do not have the form are passed over. */
    static MountTable parse(String text) {
        List<Mount> mounts = new ArrayList<>();
        for (String line : text.split("\n", -1)) {
            Mount mount = line(line);
            if (mount != null) {
                mounts.add(mount);
            }
        }
        return new MountTable(mounts);
    }

    /**
     * The mount a path lies on: the longest point that covers it, and of several on the same point the one mounted last,
     * which hides the others.
     *
     * @param path absolute, links resolved
     */
    public Optional<Mount> of(String path) {
        Mount best = null;
        for (Mount mount : mounts) {
            if (mount.covers(path)
                    && (best == null || mount.point().length() >= best.point().length())) {
                best = mount;
            }
        }
        return Optional.ofNullable(best);
    }

    /** A mount as it is now, if it is there still; the kernel gives its number to another once it is not. */
    public Optional<Mount> now(Mount mount) {
        return mounts.stream()
                .filter(one -> one.id() == mount.id() && one.device().equals(mount.device()))
                .findFirst();
    }

    // 36 35 98:0 /mnt1 /mnt2 rw,noatime master:1 - ext3 /dev/root rw,errors=continue
    private static @Nullable Mount line(String line) {
        String[] fields = line.strip().split(" ", -1);
        int dash = Arrays.asList(fields).indexOf("-");
        if (dash < 6 || fields.length < dash + 4 || !DEVICE.matcher(fields[2]).matches()) {
            return null;
        }
        try {
            return new Mount(
                    Integer.parseInt(fields[0]),
                    fields[2],
                    unescape(fields[3]),
                    unescape(fields[4]),
                    has(fields[5], "ro") || has(fields[dash + 3], "ro"),
                    unescape(fields[dash + 1]),
                    unescape(fields[dash + 2]),
                    unescape(fields[dash + 3]));
        } catch (NumberFormatException e) {
            return null;
        }
    }

    private static boolean has(String options, String option) {
        return Arrays.asList(options.split(",", -1)).contains(option);
    }

    /** Undoes the kernel's octal escapes of space, tab, newline and backslash. */
    static String unescape(String field) {
        if (field.indexOf('\\') < 0) {
            return field;
        }
        byte[] in = field.getBytes(StandardCharsets.UTF_8);
        ByteArrayOutputStream out = new ByteArrayOutputStream(in.length);
        for (int i = 0; i < in.length; i++) {
            if (in[i] == '\\' && i + 3 < in.length && octal(in[i + 1]) && octal(in[i + 2]) && octal(in[i + 3])) {
                out.write((in[i + 1] - '0') << 6 | (in[i + 2] - '0') << 3 | (in[i + 3] - '0'));
                i += 3;
            } else {
                out.write(in[i]);
            }
        }
        return out.toString(StandardCharsets.UTF_8);
    }

    private static boolean octal(byte b) {
        return b >= '0' && b <= '7';
    }
}
