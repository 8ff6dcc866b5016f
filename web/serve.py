"""Serves the page's folder on this machine alone: right types, and the policy of its index as a header."""

import functools
import http.server
import re
import sys
from pathlib import Path

POLICY = re.compile(r'Content-Security-Policy" content="([^"]+)"')


class Files(http.server.SimpleHTTPRequestHandler):
    extensions_map = {
        **http.server.SimpleHTTPRequestHandler.extensions_map,
        ".js": "text/javascript",
        ".wasm": "application/wasm",
        ".webmanifest": "application/manifest+json",
        ".svg": "image/svg+xml",
    }
    policy = ""

    def end_headers(self):
        self.send_header("Content-Security-Policy", self.policy + "; frame-ancestors 'none'")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, *_):
        pass


folder, port = Path(sys.argv[1]), int(sys.argv[2])
Files.policy = POLICY.search((folder / "index.html").read_text()).group(1)
server = http.server.ThreadingHTTPServer(("127.0.0.1", port), functools.partial(Files, directory=folder))
print(f"http://localhost:{server.server_port}/", flush=True)
try:
    server.serve_forever()
except KeyboardInterrupt:
    pass
