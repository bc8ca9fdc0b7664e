"""Connection: the kernel's websocket without the pause that TCP's small-packet delay adds to a drag."""

from typing import Any

from jupyter_server.services.kernels.connection.channels import ZMQChannelsWebsocketConnection


class QuickConnection(ZMQChannelsWebsocketConnection):
    """Sends every message at once (TCP_NODELAY); otherwise the server's own connection."""

    def connect(self) -> Any:
        """Connect as ever, then switch the delay off where the socket lets us."""
        connected = super().connect()
        set_nodelay = getattr(self.websocket_handler, "set_nodelay", None)
        if set_nodelay is not None and self.websocket_handler.ws_connection is not None:
            set_nodelay(True)
        return connected
