package panelbook.app.notifying;

import jakarta.mail.Address;
import jakarta.mail.MessagingException;
import jakarta.mail.SendFailedException;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeMessage;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.Arrays;
import java.util.Date;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.mail.MailException;
import org.springframework.mail.MailSendException;
import org.springframework.mail.javamail.JavaMailSender;
import org.springframework.stereotype.Component;
import panelbook.wire.ChannelKind;

/**
 * Mails messages as plain text by the server that {@code spring.mail.*} names. A message keeps its Message-ID on every
 * attempt, and an address that took it gets it no more.
 */
@Component
class MailSenderOfService implements Sender {

    private final ObjectProvider<JavaMailSender> server;
    private final NotifyingRules rules;
    private final Clock clock;

    MailSenderOfService(ObjectProvider<JavaMailSender> server, NotifyingRules rules, Clock clock) {
        this.server = server;
        this.rules = rules;
        this.clock = clock;
    }

    @Override
    public ChannelKind kind() {
        return ChannelKind.EMAIL;
    }

    /** What the service lacks to send mail, in words; null when it can. */
    @Nullable
    String lack() {
        if (server.getIfAvailable() == null) {
            return "This service has no mail server: start it with spring.mail.host, see the README.";
        }
        return rules.mailFrom() == null
                ? "This service has no address to mail from: set panelbook.notify.mail-from."
                : null;
    }

    @Override
    public Answer send(Outgoing message) {
        var lack = lack();
        var mailer = server.getIfAvailable();
        if (lack != null || mailer == null) {
            return Answer.failed(Objects.requireNonNullElse(lack, "No mail server."));
        }
        try {
            mailer.send(mail(mailer.createMimeMessage(), message));
            return new Answer(Answer.Result.DELIVERED, "The mail server took it.", message.addresses(), null);
        } catch (MailSendException e) {
            return undelivered(e);
        } catch (MailException | MessagingException e) {
            return Answer.failed("The mail could not be sent: " + e.getMessage());
        }
    }

    private MimeMessage mail(MimeMessage mail, Outgoing message) throws MessagingException {
        mail.setFrom(new InternetAddress(Objects.requireNonNull(rules.mailFrom()), true));
        for (var address : message.addresses()) {
            mail.addRecipient(MimeMessage.RecipientType.TO, new InternetAddress(address, true));
        }
        mail.setSubject("Panelbook: " + oneLine(message.heading()), StandardCharsets.UTF_8.name());
        mail.setText(message.body(), StandardCharsets.UTF_8.name());
        mail.setSentDate(Date.from(clock.instant()));
        mail.setHeader("Message-ID", messageId(message.id().toString()));
        // RFC 3834: programs that answer mail leave this one alone
        mail.setHeader("Auto-Submitted", "auto-generated");
        if (message.inReplyTo() != null) {
            mail.setHeader("In-Reply-To", messageId(message.inReplyTo()));
            mail.setHeader("References", messageId(message.inReplyTo()));
        }
        return mail;
    }

    private String messageId(String id) {
        var from = Objects.requireNonNull(rules.mailFrom());
        return "<" + id + from.substring(from.lastIndexOf('@')) + ">";
    }

    /** A line break in a heading would begin another header. */
    private static String oneLine(String text) {
        return text.replaceAll("[\\p{Cntrl}\u2028\u2029]+", " ");
    }

    private static Answer undelivered(MailSendException e) {
        var failures = e.getMessageExceptions();
        var failure = failures == null || failures.length == 0 ? e : failures[0];
        var text = "The mail could not be sent: " + failure.getMessage();
        if (failure instanceof SendFailedException partly) {
            var taken = addresses(partly.getValidSentAddresses());
            var refused = addresses(partly.getInvalidAddresses());
            var later = addresses(partly.getValidUnsentAddresses());
            return new Answer(
                    later.isEmpty() && !refused.isEmpty() ? Answer.Result.REFUSED : Answer.Result.FAILED,
                    refused.isEmpty() ? text : text + " Refused: " + String.join(", ", refused),
                    taken,
                    null);
        }
        return Answer.failed(text);
    }

    private static List<String> addresses(Address @Nullable [] addresses) {
        return addresses == null
                ? List.of()
                : Arrays.stream(addresses)
                        .map(address -> ((InternetAddress) address).getAddress())
                        .toList();
    }
}
