package tracksoak.bench.standin;

import java.io.IOException;
import java.net.BindException;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.channels.ServerSocketChannel;
import tracksoak.profiles.base.Problem;

/** Where a stand-in is called: had before any file is made, so that a port that is taken leaves nothing behind. Immutable. */
public final class Door implements AutoCloseable {

    private static final int WAITING = 16;

    private final ServerSocketChannel channel;

    private Door(ServerSocketChannel channel) {
        this.channel = channel;
    }

    /**
     * Listens there.
     *
     * @throws Problem if that cannot be, above all because another program does
     */
    public static Door at(InetSocketAddress address) {
        try {
            ServerSocketChannel channel = ServerSocketChannel.open();
            try {
                channel.configureBlocking(false);
                channel.setOption(StandardSocketOptions.SO_REUSEADDR, true);
                channel.bind(address, WAITING);
                return new Door(channel);
            } catch (IOException refused) {
                channel.close();
                throw refused;
            }
        } catch (BindException taken) {
            throw new Problem(
                    Problem.Kind.CANNOT,
                    "The stand-in cannot listen",
                    address.getAddress().getHostAddress() + ":" + address.getPort(),
                    Problem.reason(taken),
                    "choose another address or port with --listen, or end what uses it");
        } catch (IOException e) {
            throw Problem.cannot("The stand-in cannot listen: " + Problem.reason(e), "try again");
        }
    }

    ServerSocketChannel channel() {
        return channel;
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException ignored) {
            // nobody is called there any more
        }
    }
}
