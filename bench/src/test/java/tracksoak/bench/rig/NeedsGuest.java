package tracksoak.bench.rig;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * The test starts a {@link Guest}: it needs an emulator and a kernel made for it. Elsewhere it is skipped and says why; where
 * the environment says {@code CI=true} it fails instead. It gives way to everything else, for its time is asserted nowhere, and
 * so runs beside tests of real devices, which wait most of theirs.
 */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@Tag("guest")
@Order(1)
@ExtendWith(RigCondition.class)
public @interface NeedsGuest {}
