package tracksoak.report.page;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.parallel.ResourceLock;

/**
 * The test opens pages in a real browser, the machine's own Chromium and Node, through {@link Windows} handed to its
 * constructor or method. Elsewhere it is skipped and says why; where the environment says {@code CI=true} it fails instead.
 */
@Target({ElementType.TYPE, ElementType.METHOD})
@Retention(RetentionPolicy.RUNTIME)
@Tag("browser")
@ResourceLock("the one browser, which one thread at a time may ask")
@ExtendWith(BrowserSetUp.class)
public @interface NeedsBrowser {}
