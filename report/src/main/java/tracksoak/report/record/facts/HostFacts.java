package tracksoak.report.record.facts;

import org.jspecify.annotations.Nullable;

/**
 * The computer the run was made on.
 *
 * @param os operating system and version
 * @param arch processor architecture
 * @param cpu processor as the system names it, null if unknown
 * @param cores processors the bench may use
 * @param memoryBytes main memory in bytes, null if unknown
 * @param java Java version and virtual machine
 */
public record HostFacts(
        String os,
        String arch,
        @Nullable String cpu,
        int cores,
        @Nullable Long memoryBytes,
        String java) {}
