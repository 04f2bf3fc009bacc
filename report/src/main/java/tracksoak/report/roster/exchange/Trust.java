package tracksoak.report.roster.exchange;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateExpiredException;
import java.security.cert.CertificateFactory;
import java.security.cert.CertificateNotYetValidException;
import java.security.cert.X509Certificate;
import java.util.Collection;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;
import tracksoak.profiles.base.Times;

/** Trust in a certificate that a person gives, for servers no authority vouches for. The name in it must still be the server's. */
public final class Trust {

    private static final int MOST_CERTIFICATES = 20;

    private Trust() {}

    /**
     * Trusts these certificates and nothing else.
     *
     * @param pem file of certificates in PEM form
     * @throws IOException if it cannot be read or holds none, or one that expired or is not valid yet: what is trusted by itself is not looked at
     *     for that when a connection is made
     */
    public static SSLContext of(Path pem) throws IOException {
        try (InputStream in = Files.newInputStream(pem)) {
            Collection<? extends Certificate> certificates =
                    CertificateFactory.getInstance("X.509").generateCertificates(in);
            if (certificates.isEmpty() || certificates.size() > MOST_CERTIFICATES) {
                throw new IOException(certificates.size() + " certificates in it");
            }
            KeyStore store = KeyStore.getInstance(KeyStore.getDefaultType());
            store.load(null, null);
            int number = 0;
            for (Certificate certificate : certificates) {
                if (certificate instanceof X509Certificate dated) {
                    valid(dated);
                }
                store.setCertificateEntry("given-" + number++, certificate);
            }
            TrustManagerFactory trust = TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
            trust.init(store);
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(null, trust.getTrustManagers(), null);
            return context;
        } catch (GeneralSecurityException e) {
            throw new IOException("it holds no certificate in PEM form", e);
        }
    }

    private static void valid(X509Certificate certificate) throws IOException {
        try {
            certificate.checkValidity();
        } catch (CertificateExpiredException e) {
            throw new IOException(
                    "the certificate expired on "
                            + Times.day(certificate.getNotAfter().toInstant()),
                    e);
        } catch (CertificateNotYetValidException e) {
            throw new IOException(
                    "the certificate is not valid before "
                            + Times.day(certificate.getNotBefore().toInstant()),
                    e);
        }
    }
}
