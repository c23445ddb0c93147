import socket

import pytest
from django.core.management import CommandError, call_command

from fitting.site.server import free_port


@pytest.mark.django_db
def test_a_taken_port_is_said_with_the_way_out():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert free_port("127.0.0.1", port) != port
        with pytest.raises(CommandError, match="--port"):
            call_command("serve", port=port)
