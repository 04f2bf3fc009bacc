package tracksoak.report.roster.web.server;

import org.eclipse.jetty.http.HttpStatus;
import org.eclipse.jetty.server.Request;
import org.eclipse.jetty.server.Response;
import org.eclipse.jetty.server.handler.ErrorHandler;
import org.eclipse.jetty.util.Callback;

/** Answers requests that are no HTTP, or too large a head, before they reach the handler: with the status and no detail. */
final class LowErrors implements Request.Handler {

    private final Replies replies;

    LowErrors(Replies replies) {
        this.replies = replies;
    }

    @Override
    public boolean handle(Request request, Response response, Callback callback) {
        int status = request.getAttribute(ErrorHandler.ERROR_STATUS) instanceof Integer known ? known : 400;
        String why = HttpStatus.getMessage(status).toLowerCase(java.util.Locale.ROOT);
        replies.refuse(
                new Refusal(status, "the request cannot be answered", "the request", why, "correct it and try again"),
                null,
                response,
                callback);
        return true;
    }
}
