package tracksoak.profiles;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import tracksoak.profiles.base.KebabCase;

/** The words a profile uses for what can only be one of a few things. */
final class ProfileWords {
    /** File systems a recorder may accept, by the names the bench reports them under. */
    static final List<String> FILE_SYSTEMS = List.of(
            "exfat", "fat32", "ntfs", "apfs", "hfsplus", "ext4", "ext3", "ext2", "xfs", "btrfs", "f2fs", "zfs", "refs",
            "udf", "tmpfs", "overlay");

    private ProfileWords() {}

    /** The word for a value: {@code file-per-track}, {@code 24-bit}. */
    public static String of(Enum<?> value) {
        return value instanceof SampleFormat format ? format.words() : KebabCase.of(value);
    }

    /** Every word of a kind, in order, and what it stands for. */
    static <E extends Enum<E>> Map<String, E> all(Class<E> type) {
        Map<String, E> words = new LinkedHashMap<>();
        for (E value : type.getEnumConstants()) {
            words.put(of(value), value);
        }
        return words;
    }
}
