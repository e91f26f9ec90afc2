package panelbook.app.notifying;

import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Configuration;

/** Takes in the properties of this part. */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(NotifyingRules.class)
class NotifyingConfiguration {}
