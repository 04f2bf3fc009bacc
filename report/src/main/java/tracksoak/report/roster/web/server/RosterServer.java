package tracksoak.report.roster.web.server;

import java.net.BindException;
import java.net.InetAddress;
import java.security.SecureRandom;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Executor;
import java.util.function.Consumer;
import org.eclipse.jetty.http.UriCompliance;
import org.eclipse.jetty.server.HttpConfiguration;
import org.eclipse.jetty.server.HttpConnectionFactory;
import org.eclipse.jetty.server.NetworkConnectionLimit;
import org.eclipse.jetty.server.SecureRequestCustomizer;
import org.eclipse.jetty.server.Server;
import org.eclipse.jetty.server.ServerConnector;
import org.eclipse.jetty.server.SslConnectionFactory;
import org.eclipse.jetty.server.handler.GracefulHandler;
import org.eclipse.jetty.util.ssl.SslContextFactory;
import org.eclipse.jetty.util.thread.QueuedThreadPool;
import tracksoak.profiles.base.Failure;
import tracksoak.profiles.base.Inert;
import tracksoak.profiles.base.Problem;
import tracksoak.profiles.base.SystemClocks;

/** The running server. Any thread; closing lets requests under way finish for a few seconds. */
public final class RosterServer implements AutoCloseable {

    private static final int MOST_THREADS = 32;
    private static final int FEWEST_THREADS = 4;
    /** Leaves threads for connections while every worker waits for the store. */
    private static final int MOST_AT_WORK = 16;

    private static final int MOST_AT_WORK_OF_ONE = 4;
    /** More than one address may open at once, or others wait for their connection to be asked for again. */
    private static final int ACCEPT_QUEUE = 1_024;

    private static final int MOST_WAITING = 2_000;
    private static final int MOST_WAITING_OF_ONE = 400;
    private static final long IDLE_MS = 30_000;
    private static final long STOP_MS = 5_000;
    /** Browsers keep their connections open, and stopping would wait for each. */
    private static final long IDLE_AT_STOP_MS = 100;

    private final RosterSettings settings;
    private final Server server;
    private final ServerConnector connector;
    private final Live live;
    private final ChangePoll poll;

    private RosterServer(
            RosterSettings settings, Server server, ServerConnector connector, Live live, ChangePoll poll) {
        this.settings = settings;
        this.server = server;
        this.connector = connector;
        this.live = live;
        this.poll = poll;
    }

    /**
     * Starts serving.
     *
     * @param tokens who may write, and read where reading is closed
     * @param log never gets a token
     * @throws Problem if the certificate cannot be used or the address is taken
     */
    public static RosterServer start(
            RosterSettings settings, Site site, TokenFile tokens, InstantSource clock, ServerLog log) {
        QueuedThreadPool pool = new QueuedThreadPool(MOST_THREADS, FEWEST_THREADS);
        pool.setName("roster");
        Server server = new Server(pool);
        Deadlines deadlines = new Deadlines(server.getScheduler(), settings.limits());
        ServerConnector connector = connector(settings, server);
        connector.addBean(deadlines);
        PeerUser peers = site.ways() == Site.Ways.KEY_IN_ADDRESS ? PeerUser.own() : new PeerUser(Set.of());
        connector.addBean(new ClientConnections(settings.limits().connectionsOfOne(), peers));
        server.addConnector(connector);
        server.addBean(new NetworkConnectionLimit(settings.limits().connections(), connector));
        Replies replies = new Replies(settings.encrypted(), site.refusalPage());
        Consumer<Throwable> failures = failure ->
                log.failure(Inert.text(failure instanceof Problem known ? known.getMessage() : failure.toString()));
        Live live = new Live(
                settings.limits().watchers(),
                settings.limits().watchersOfOne(),
                settings.limits().watchersOfToken());
        Executor workers = pool;
        Authenticator authenticator = new Authenticator(tokens, clock, new SecureRandom(), settings.limits());
        AccessControl access = new AccessControl(settings, authenticator, clock, peers);
        List<Route> routes = new ArrayList<>(site.routes());
        routes.addAll(new LoginRoutes(authenticator, settings.encrypted(), site.loginPage())
                .routes(site.ways() == Site.Ways.KEY_IN_ADDRESS));
        routes.add(Route.news("/live"));
        FairExecutor turns = new FairExecutor(
                workers, SystemClocks.NANO, MOST_AT_WORK, MOST_AT_WORK_OF_ONE, MOST_WAITING, MOST_WAITING_OF_ONE);
        RequestHandler handler =
                new RequestHandler(settings, access, routes, live, site.mark(), deadlines, replies, turns, failures);
        server.setHandler(new GracefulHandler(handler));
        server.setErrorHandler(new LowErrors(replies));
        server.setRequestLog((request, response) -> log.request(clock.instant() + " " + Inert.text(request.getMethod())
                + " " + Inert.text(org.eclipse.jetty.server.Request.getPathInContext(request)) + " "
                + response.getStatus()));
        server.setStopTimeout(STOP_MS);
        ChangePoll poll = new ChangePoll(
                live,
                site.mark(),
                server.getScheduler(),
                workers,
                failures,
                site.ways().lookEveryMs());
        RosterServer started = new RosterServer(settings, server, connector, live, poll);
        started.go();
        if (settings.certificate() != null) {
            Pem.trouble(settings.certificate(), clock.instant()).ifPresent(log::failure);
        }
        return started;
    }

    private static ServerConnector connector(RosterSettings settings, Server server) {
        HttpConfiguration http = new HttpConfiguration();
        http.setSendServerVersion(false);
        http.setSendXPoweredBy(false);
        http.setRequestHeaderSize(settings.limits().headBytes());
        http.setUriCompliance(UriCompliance.RFC3986);
        HttpConnectionFactory plain = new HttpConnectionFactory(http);
        ServerConnector connector;
        if (settings.certificate() == null || settings.key() == null) {
            connector = new ServerConnector(server, 1, 1, plain);
        } else {
            SslContextFactory.Server tls = new SslContextFactory.Server();
            tls.setKeyStore(Pem.keyStore(settings.certificate(), settings.key()));
            tls.setKeyStorePassword("");
            tls.setIncludeProtocols("TLSv1.3", "TLSv1.2");
            http.addCustomizer(new SecureRequestCustomizer(false));
            connector = new ServerConnector(server, 1, 1, new SslConnectionFactory(tls, "http/1.1"), plain);
        }
        connector.setHost(settings.where().getHostAddress());
        connector.setPort(settings.port());
        connector.setIdleTimeout(IDLE_MS);
        connector.setShutdownIdleTimeout(IDLE_AT_STOP_MS);
        connector.setAcceptQueueSize(ACCEPT_QUEUE);
        return connector;
    }

    private void go() {
        try {
            server.start();
        } catch (Exception e) {
            stop();
            if (e instanceof BindException || e.getCause() instanceof BindException) {
                throw RosterSettings.wrong(
                        settings.bind() + " port " + settings.port(),
                        "this address is taken, or not one of this computer's",
                        "give another port, or stop the program that holds it");
            }
            throw RosterSettings.wrong(
                    settings.bind() + " port " + settings.port(),
                    Inert.text(Failure.told(e)),
                    "check address, port and certificate");
        }
        poll.start();
    }

    /** The port it listens on. */
    public int port() {
        return connector.getLocalPort();
    }

    /** Where to point a browser on this computer, such as {@code http://127.0.0.1:8432/}. */
    public String address() {
        String given = settings.address();
        if (given != null) {
            return given + "/";
        }
        InetAddress where = settings.where();
        String host = where.isAnyLocalAddress() ? "127.0.0.1" : where.getHostAddress();
        return (settings.encrypted() ? "https://" : "http://") + (host.contains(":") ? "[" + host + "]" : host) + ":"
                + port() + "/";
    }

    /** Waits until the server is closed by another thread. */
    public void await() throws InterruptedException {
        server.join();
    }

    @Override
    public void close() {
        poll.stop();
        live.close();
        stop();
    }

    private void stop() {
        try {
            server.stop();
        } catch (Exception e) {
            // nothing is lost: whatever was acknowledged is in the store already
            server.setStopTimeout(0);
        }
    }
}
