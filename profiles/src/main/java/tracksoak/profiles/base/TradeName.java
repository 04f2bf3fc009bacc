package tracksoak.profiles.base;

import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** File systems and buses as the trade spells them; records and options have them in lower case. Stateless. */
public final class TradeName {

    private static final Map<String, String> SPELLED = Map.ofEntries(
            Map.entry("exfat", "exFAT"),
            Map.entry("fat", "FAT"),
            Map.entry("fat12", "FAT12"),
            Map.entry("fat16", "FAT16"),
            Map.entry("fat32", "FAT32"),
            Map.entry("ntfs", "NTFS"),
            Map.entry("hfs", "HFS"),
            Map.entry("hfsplus", "HFS+"),
            Map.entry("apfs", "APFS"),
            Map.entry("xfs", "XFS"),
            Map.entry("btrfs", "Btrfs"),
            Map.entry("f2fs", "F2FS"),
            Map.entry("udf", "UDF"),
            Map.entry("usb", "USB"),
            Map.entry("sata", "SATA"),
            Map.entry("nvme", "NVMe"),
            Map.entry("scsi", "SCSI"),
            Map.entry("mmc", "MMC"),
            Map.entry("firewire", "FireWire"),
            Map.entry("gpt", "GPT"),
            Map.entry("mbr", "MBR"));

    private TradeName() {}

    /** As the trade spells it; any other word, such as {@code ext4}, as it is. */
    public static String of(String word) {
        return SPELLED.getOrDefault(word, word);
    }

    /** The same, null for null. */
    public static @Nullable String orNull(@Nullable String word) {
        return word == null ? null : of(word);
    }

    /** The word that is so spelled, whichever letters are large. */
    public static String word(String spelled) {
        return SPELLED.entrySet().stream()
                .filter(entry -> entry.getValue().equalsIgnoreCase(spelled))
                .map(Map.Entry::getKey)
                .findFirst()
                .orElse(spelled.toLowerCase(Locale.ROOT));
    }

    /** All of them. */
    public static String all(Collection<String> words, String between) {
        return words.stream().map(TradeName::of).collect(Collectors.joining(between));
    }
}
