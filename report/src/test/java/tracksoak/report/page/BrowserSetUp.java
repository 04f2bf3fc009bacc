package tracksoak.report.page;

import java.util.Deque;
import java.util.List;
import java.util.concurrent.ConcurrentLinkedDeque;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.ParameterContext;
import org.junit.jupiter.api.extension.ParameterResolver;

/**
 * A browser for each class that runs, started when no other is idle, and handed on when the class ends; windows that a test leaves open
 * are closed.
 */
final class BrowserSetUp implements ExecutionCondition, ParameterResolver, AfterEachCallback {

    private static final ExtensionContext.Namespace OURS = ExtensionContext.Namespace.create(BrowserSetUp.class);

    @Override
    public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
        return decide(Browser.missing(), "true".equals(System.getenv("CI")));
    }

    /**
     * @param missing what this machine lacks
     * @param required whether a machine without it is an error
     * @throws IllegalStateException if something is missing and required: the test then counts as failed
     */
    static ConditionEvaluationResult decide(List<String> missing, boolean required) {
        if (missing.isEmpty()) {
            return ConditionEvaluationResult.enabled("a browser is here");
        }
        String why = "not on this machine, so no page is opened in a real browser: " + String.join(", ", missing);
        if (required) {
            throw new IllegalStateException(why + "; CI=true makes this test required");
        }
        return ConditionEvaluationResult.disabled(why);
    }

    @Override
    public boolean supportsParameter(ParameterContext parameter, ExtensionContext context) {
        return parameter.getParameter().getType() == Windows.class;
    }

    @Override
    public Object resolveParameter(ParameterContext parameter, ExtensionContext context) {
        Idle idle = context.getRoot().getStore(OURS).getOrComputeIfAbsent(Idle.class, none -> new Idle(), Idle.class);
        return new Windows(
                ofClass(context).getOrComputeIfAbsent(Loan.class, none -> new Loan(idle), Loan.class).browser);
    }

    @Override
    public void afterEach(ExtensionContext context) {
        Loan loan = ofClass(context).get(Loan.class, Loan.class);
        if (loan != null) {
            loan.browser.closeWindows();
        }
    }

    private static ExtensionContext.Store ofClass(ExtensionContext context) {
        return context.getTestMethod()
                .flatMap(method -> context.getParent())
                .map(parent -> parent.getTestMethod().isPresent() ? ofClass(parent) : parent.getStore(OURS))
                .orElseGet(() -> context.getStore(OURS));
    }

    /** The browsers that no class has. */
    private static final class Idle implements AutoCloseable {

        private final Deque<Browser> browsers = new ConcurrentLinkedDeque<>();

        @Override
        public void close() {
            browsers.forEach(Browser::close);
        }
    }

    /** What a class has of them, for one thread at a time may ask a browser. */
    private static final class Loan implements AutoCloseable {

        private final Idle idle;
        private final Browser browser;

        Loan(Idle idle) {
            this.idle = idle;
            Browser free = idle.browsers.poll();
            this.browser = free == null ? Browser.open() : free;
        }

        @Override
        public void close() {
            idle.browsers.push(browser);
        }
    }
}
