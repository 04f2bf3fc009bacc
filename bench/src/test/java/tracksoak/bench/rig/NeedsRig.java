package tracksoak.bench.rig;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * The test builds real block devices: it needs Linux, root, loop devices, FUSE and the commands of {@link RigCondition}.
 * Elsewhere it is skipped and says why; where the environment says {@code CI=true} it fails instead. It runs beside
 * others of its kind unless it is isolated; one that is tagged {@code program} starts whole programs and bears it when they are
 * late. It fails if it leaves a mount, a device or a process behind.
 */
@Target({ElementType.TYPE, ElementType.METHOD})
@Retention(RetentionPolicy.RUNTIME)
@Tag("rig")
@ExtendWith({RigCondition.class, NothingLeft.class})
public @interface NeedsRig {

    /** Whether the kernel must also be able to throttle a device (cgroup blkio or io). */
    boolean throttle() default false;
}
