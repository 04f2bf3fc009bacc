package tracksoak.report.page;

import java.util.List;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.ParameterContext;
import org.junit.jupiter.api.extension.ParameterResolver;

/** One browser for all classes, started when its first window is asked for; windows that a test leaves open are closed. */
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
        return new Windows(context.getRoot()
                .getStore(OURS)
                .getOrComputeIfAbsent(Browser.class, none -> Browser.open(), Browser.class));
    }

    @Override
    public void afterEach(ExtensionContext context) {
        Browser browser = context.getRoot().getStore(OURS).get(Browser.class, Browser.class);
        if (browser != null) {
            browser.closeWindows();
        }
    }
}
